#!/usr/bin/python3
"""Effective draws a second: ours beside emcee on the same posterior, both by our compiled forecast.

    bench/emcee_beside.py build/bench/bin/posterior_server
"""
import struct
import subprocess
import sys
import time

import emcee
import numpy as np

server = sys.argv[1]
steps = int(sys.argv[2]) if len(sys.argv) > 2 else 1500

took, effective, mean, method = subprocess.run(
    [server, "--ours"], capture_output=True, text=True, check=True
).stdout.split()
print(f"ours    {method:9s} {float(effective):7.0f} effective draws in {float(took):6.2f} s"
      f"  = {float(effective) / float(took):8.0f} a second   mean of z1 {float(mean):+.3f}")

process = subprocess.Popen([server], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
dimension = int(process.stdout.readline())


def log_posterior(points):
    process.stdin.write(struct.pack("=Q", len(points)) + np.ascontiguousarray(points).tobytes())
    process.stdin.flush()
    return np.frombuffer(process.stdout.read(8 * len(points)))


walkers = 2 * dimension + 2
random = np.random.default_rng(1)
sampler = emcee.EnsembleSampler(walkers, dimension, log_posterior, vectorize=True)
np.random.seed(1)
begin = time.perf_counter()
sampler.run_mcmc(0.3 * random.standard_normal((walkers, dimension)), steps)
took = time.perf_counter() - begin
burned = steps // 3
tau = sampler.get_autocorr_time(discard=burned, tol=0)
effective = walkers * (steps - burned) / np.max(tau)
print(f"emcee   ensemble  {effective:7.0f} effective draws in {took:6.2f} s  = {effective / took:8.0f} a second"
      f"   mean of z1 {sampler.get_chain(discard=burned, flat=True)[:, 0].mean():+.3f}")
print(f"        {walkers} walkers, {steps} steps in {dimension} dimensions, correlation time {np.max(tau):.0f} steps"
      f" (emcee trusts it from 50 of them on: {(steps - burned) / np.max(tau):.0f} here)")
process.stdin.close()
