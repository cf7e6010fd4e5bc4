#!/usr/bin/env bash
# How long a daybook of 2 000 bakes and 200 000 readings takes to open and to list, beside the sqlite3
# command line on the same file with the same question, in one run.
#   bench/daybook.sh FOLDER_OF_PROGRAMS [RUNS]
set -eu
cd "$(dirname "$0")/.."
programs=${1:?usage: bench/daybook.sh build/bench/bin [RUNS]}
runs=${2:-15}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$programs/daybook_once" make "$folder/daybook.barm"
exec /usr/bin/python3 - "$programs" "$folder/daybook.barm" "$runs" <<'PYTHON'
import os, statistics, subprocess, sys, time

programs, file, runs = sys.argv[1], sys.argv[2], int(sys.argv[3])
question = """SELECT id, title, tags, state, mixed_at,
 (SELECT count(*) FROM reading r WHERE r.bake = bake.id AND r.deleted_at IS NULL),
 (SELECT max(r.at) FROM reading r WHERE r.bake = bake.id AND r.deleted_at IS NULL)
 FROM bake WHERE deleted_at IS NULL ORDER BY coalesce(mixed_at, saved_at) DESC, id LIMIT {}"""

def whole(command):
    begin = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return (time.perf_counter() - begin) * 1000

inside, ours, theirs = [], {100: [], 2000: []}, {100: [], 2000: []}
for _ in range(runs):
    said = subprocess.run([f"{programs}/daybook_once", "look", file], check=True, capture_output=True, text=True)
    inside.append([float(word) for word in said.stdout.split()])
    for limit in ours:
        ours[limit].append(whole([f"{programs}/daybook_once", "list", file, str(limit)]))
        theirs[limit].append(whole(["sqlite3", file, question.format(limit)]))

print(f"{os.path.getsize(file) / 1e6:.0f} MB, medians of {runs} runs [ms]")
for name, values in zip(["open", "list the newest 100 bakes", "list all 2000", "search two words in all",
                         "the 100 readings of one bake"], zip(*inside)):
    print(f"  {name:<34}{statistics.median(values):8.1f}")
for limit in ours:
    print(f"  whole process, list {limit:<5} ours      {statistics.median(ours[limit]):8.1f}")
    print(f"                                 sqlite3   {statistics.median(theirs[limit]):8.1f}")
PYTHON
