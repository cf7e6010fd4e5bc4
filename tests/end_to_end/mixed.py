#!/usr/bin/python3
"""Writes to one daybook by a running server, terminal commands and a plain SQLite program at once, and kills all three.

    tests/end_to_end/mixed.py BARM [RUNS [SECONDS]]     each run in a new daybook; prints a line for each and one for all

A write is acknowledged when the server answers 200, the command ends with 0, the plain program has said so after COMMIT. At
the end of each run every acknowledged record must be there and the file whole.
"""

import http.client
import json
import pathlib
import random
import signal
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time

columns = "id, revision, saved_at, bake, at, text"


def write_plainly(file, name, bake):
    """As any other program would: opens, writes a remark, closes; says its id once that is done."""
    for number in range(100000):
        row = f"{name}-{number}"
        book = sqlite3.connect(file, timeout=5, isolation_level=None)
        try:
            book.execute("BEGIN IMMEDIATE")
            book.execute(f"INSERT INTO remark ({columns}) VALUES (?, 1, 1795953600, ?, 1795953600, 'plain')", (row, bake))
            book.execute("COMMIT")
        except sqlite3.OperationalError as trouble:
            if "locked" not in str(trouble):
                raise
            continue
        finally:
            book.close()
        print(row, flush=True)


class Run:
    def __init__(self, barm, folder, seconds, seed):
        self.barm = barm
        self.file = str(folder / "daybook.barm")
        self.chance = random.Random(seed)
        self.until = time.monotonic() + seconds
        self.acknowledged = {"page": [], "terminal": [], "plain": []}
        self.faults = []
        self.kills = 0
        self.port = 0
        recipe = pathlib.Path(__file__).resolve().parents[2] / "examples/plain-loaf.toml"
        made = self.command("add", str(recipe), "--json")
        if made.returncode != 0:
            raise SystemExit(f"no bake could be kept: {made.stderr}")
        self.bake = json.loads(made.stdout)["id"]

    def goes_on(self):
        """For its time; where the machine is busy, until each of the three has written at all."""
        over = time.monotonic() - self.until
        return over < 0 or (over < 60 and not all(self.acknowledged.values()))

    def command(self, *words):
        return subprocess.run(
            [self.barm, "daybook", *words, "--daybook", self.file], capture_output=True, text=True, check=False
        )

    def kill(self, running):
        running.send_signal(signal.SIGKILL)
        running.wait()
        self.kills += 1

    def lives_for(self, least, most, running):
        """Waits so long at random, then kills it."""
        time.sleep(self.chance.uniform(least, most))
        self.kill(running)

    def serve(self):
        while self.goes_on():
            words = [self.barm, "open", "--daybook", self.file, "--port", "0", "--no-browser"]
            with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as server:
                for line in server.stdout:
                    if "http://localhost:" in line:
                        self.port = int(line.rsplit(":", 1)[1])
                        break
                else:
                    said = server.stderr.read()
                    if "been writing for too long" not in said:
                        self.faults.append(f"the server did not start: {said}")
                        return
                    continue
                self.lives_for(0.6, 2.0, server)

    def write_by_page(self, name):
        number = 0
        while self.goes_on():
            number += 1
            row = f"{name}-{number}"
            line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=10)
            try:
                record = json.dumps({"bake": self.bake, "at": "2025-11-29T12:00:00Z", "height_mm": 60})
                line.request("PUT", f"/api/readings/{row}", record, {"Content-Type": "application/json"})
                reply = line.getresponse()
                said = reply.read().decode()
                if reply.status == 200:
                    self.acknowledged["page"].append(row)
                elif reply.status != 503:
                    self.faults.append(f"the server said {reply.status} {said}")
            except (OSError, http.client.HTTPException):
                time.sleep(0.02)  # it was killed and is not yet back
            finally:
                line.close()

    def write_by_terminal(self, name):
        number = 0
        while self.goes_on():
            number += 1
            row = f"{name}-{number}"
            words = [self.barm, "daybook", "read", self.bake, "--height", "60", "--id", row, "--daybook", self.file]
            with subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True) as command:
                if number % 7 == 0:
                    time.sleep(self.chance.uniform(0, 0.03))
                    self.kill(command)
                    continue
                said = command.stderr.read()
                if command.wait() == 0:
                    self.acknowledged["terminal"].append(row)
                elif "been writing for too long" not in said:
                    self.faults.append(f"a command said: {said}")

    def write_by_others(self, name):
        number = 0
        while self.goes_on():
            number += 1
            words = [sys.executable, __file__, "--write-plainly", self.file, f"{name}-{number}", self.bake]
            with subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as plain:
                self.lives_for(0.2, 0.8, plain)
                self.acknowledged["plain"] += [line for line in plain.stdout.read().split("\n")[:-1] if line]
                said = plain.stderr.read()
                if said:
                    self.faults.append(f"a plain program said: {said}")

    def look(self):
        """What is not as it should be."""
        wrong = self.faults[:3]
        book = sqlite3.connect(self.file)
        whole = [row[0] for row in book.execute("PRAGMA integrity_check(5)")]
        wrong += [line for line in whole if line != "ok"]
        there = {row[0] for table in ("reading", "remark") for row in book.execute(f"SELECT id FROM {table}")}
        book.close()
        for who, rows in self.acknowledged.items():
            lost = [row for row in rows if row not in there]
            if lost:
                wrong.append(f"{len(lost)} of {len(rows)} acknowledged by {who} are gone")
            if not rows:
                wrong.append(f"{who} never came to write: nothing was tested")
        return wrong

    def all(self):
        works = [(self.serve, ()), (self.write_by_others, ("plain",))]
        works += [(self.write_by_page, (f"page{i}",)) for i in range(2)]
        works += [(self.write_by_terminal, (f"terminal{i}",)) for i in range(2)]
        threads = [threading.Thread(target=work, args=words) for work, words in works]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        return self.look()


def main():
    if sys.argv[1] == "--write-plainly":
        write_plainly(*sys.argv[2:5])
        return 0
    barm = str(pathlib.Path(sys.argv[1]).resolve())
    runs = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    seconds = float(sys.argv[3]) if len(sys.argv) > 3 else 5
    bad, writes, kills = 0, 0, 0
    for number in range(runs):
        with tempfile.TemporaryDirectory() as folder:
            run = Run(barm, pathlib.Path(folder), seconds, number)
            wrong = run.all()
            said = ", ".join(f"{len(rows)} by {who}" for who, rows in run.acknowledged.items())
            print(f"run {number}: {said}, {run.kills} kills: {'; '.join(wrong) or 'all there'}", flush=True)
            bad += bool(wrong)
            writes += sum(len(rows) for rows in run.acknowledged.values())
            kills += run.kills
    print(f"{runs - bad} of {runs} mixed runs lost nothing of {writes} acknowledged writes in {kills} kills")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
