"""Ratios of speed and memory, side by side in one run. Prints them; asserts nothing.

    .venv-test/bin/python tests/performance/measure.py [--seconds 1.0] [--rounds 5] [--markdown]

Absolute figures drift with the machine by a factor of two within minutes; the ratios are what counts.
"""

from __future__ import annotations

import argparse
import asyncio
import json
import os
import statistics
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import httpx

HERE = Path(__file__).resolve().parent
CALCULATION = "/v1/calculations/hot-water-recovery"
CONNECTIONS = 16
ROWS = 1_000_000


# --- HTTP -----------------------------------------------------------------------------------------


class Server:
    """A uvicorn process on a port of its own."""

    def __init__(self, factory: str, port: int, ready: str = "/health/live") -> None:
        """Start it and wait for its first answer."""
        self.base = f"http://127.0.0.1:{port}"
        started = time.perf_counter()
        self.process = subprocess.Popen(
            [
                sys.executable,
                "-m",
                "uvicorn",
                "--factory",
                factory,
                "--port",
                str(port),
                "--log-level",
                "error",
                "--no-access-log",
            ],
            env={**os.environ, "PYTHONPATH": str(HERE)},
        )
        while True:
            try:
                httpx.get(self.base + ready, timeout=1)
                break
            except httpx.TransportError:
                time.sleep(0.005)
        self.start = time.perf_counter() - started

    def memory(self) -> float:
        """Return resident memory in MiB."""
        status = Path(f"/proc/{self.process.pid}/status").read_text()
        line = next(item for item in status.splitlines() if item.startswith("VmRSS"))
        return int(line.split()[1]) / 1024

    def stop(self) -> None:
        """End it."""
        self.process.terminate()
        self.process.wait()


async def _worker(port: int, request: bytes, until: float) -> int:
    """Send one request after the other on one connection, and count the answers."""
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    count = 0
    while time.perf_counter() < until:
        writer.write(request)
        head = await reader.readuntil(b"\r\n\r\n")
        if not head.startswith(b"HTTP/1.1 200"):
            message = head.decode()
            raise RuntimeError(message)
        for line in head.split(b"\r\n"):
            if line.lower().startswith(b"content-length:"):
                await reader.readexactly(int(line.split(b":")[1]))
        count += 1
    writer.close()
    return count


async def _load(port: int, path: str, body: bytes, seconds: float) -> float:
    request = (
        f"POST {path} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
        f"Content-Length: {len(body)}\r\n\r\n"
    ).encode() + body
    until = time.perf_counter() + seconds
    started = time.perf_counter()
    counts = await asyncio.gather(*(_worker(port, request, until) for _ in range(CONNECTIONS)))
    return sum(counts) / (time.perf_counter() - started)


def http(seconds: float, rounds: int) -> dict[str, Any]:
    """Requests a second: echo, full answer, brief answer, in turn."""
    from tundish.host import default_host
    from tundish.schemas import example_request

    example = example_request(default_host().runner("hot-water-recovery").calculation)
    body = json.dumps(example).encode()
    flat = {
        name: value if "value" in value else {"value": 1.0, "unit": "m"}
        for name, value in example["inputs"].items()
    }
    echoed = json.dumps({"inputs": flat, "region": "GB"}).encode()
    ours = Server("tundish_api.app:create_app", 8731)
    theirs = Server("_servers:echo", 8732, ready="/")
    shots = {
        "echo": (8732, "/echo", echoed),
        "full": (8731, CALCULATION, body),
        "brief": (8731, f"{CALCULATION}?include=", body),
    }
    rates: dict[str, list[float]] = {name: [] for name in shots}
    try:
        for shot in shots.values():  # warm up
            asyncio.run(_load(*shot, 0.5))
        for _ in range(rounds):
            for name, shot in shots.items():
                rates[name].append(asyncio.run(_load(*shot, seconds)))
    finally:
        ours.stop()
        theirs.stop()
    median = {name: statistics.median(values) for name, values in rates.items()}
    return {
        "requests a second": {name: round(value) for name, value in median.items()},
        "full over echo (goal 0.8)": median["full"] / median["echo"],
        "brief over echo (goal 1.2)": median["brief"] / median["echo"],
    }


def starting(rounds: int) -> dict[str, Any]:
    """Time to the first answer, and memory after some requests, against an empty application."""
    from tundish.host import default_host
    from tundish.schemas import example_request

    example = example_request(default_host().runner("hot-water-recovery").calculation)
    times: dict[str, list[float]] = {"ours": [], "empty": []}
    memory: dict[str, float] = {}
    for _ in range(rounds):
        for name, factory in (("empty", "_servers:empty"), ("ours", "tundish_api.app:create_app")):
            server = Server(factory, 8733)
            times[name].append(server.start)
            if name == "ours":
                for _ in range(50):
                    httpx.post(server.base + CALCULATION, json=example)
            else:
                for _ in range(50):
                    httpx.get(server.base + "/health/live")
            memory[name] = server.memory()
            server.stop()
    start = {name: statistics.median(values) for name, values in times.items()}
    return {
        "start, s": {name: round(value, 3) for name, value in start.items()},
        "start over empty application (goal 1.5 at most)": start["ours"] / start["empty"],
        "memory, MiB": {name: round(value, 1) for name, value in memory.items()},
        "memory over empty application (goal 1.6 at most)": memory["ours"] / memory["empty"],
    }


# --- kernels and command --------------------------------------------------------------------------


def columns(name: str, inputs: dict[str, Any], varied: tuple[str, ...]) -> dict[str, Any]:
    """Rows a second of the column kernel over the loop of plain floats."""
    import numpy as np

    from tundish.batch import run_inputs, stack
    from tundish.host import default_host, today
    from tundish.run import read_request

    host = default_host()
    runner = host.runner(name)
    request = read_request(
        runner.calculation, {"inputs": inputs, "region": "GB"}, host.book, today=today()
    )
    one, _ = runner.inputs(request)
    loops = 2000
    kernel, context = runner.calculation.kernel, request.context
    # Columns leave the curves out, so the floats they are held against do too.
    drawing = kernel.__globals__.get("drawn")
    kernel.__globals__["drawn"] = lambda *_: None
    kernel(one, context)
    started = time.perf_counter()
    for _ in range(loops):
        kernel(one, context)
    plain = loops / (time.perf_counter() - started)
    kernel.__globals__["drawn"] = drawing
    stacked = stack(runner.calculation.inputs_node, [one])
    rng = np.random.default_rng(1)

    def spread(value: Any) -> Any:
        if hasattr(value, "dtype"):
            return float(value[0]) * rng.uniform(0.97, 1.03, ROWS)
        return value

    fields = {
        field: _vary(getattr(stacked, field), spread, field in varied)
        for field in type(stacked).model_fields
    }
    many = type(stacked).model_construct(**fields)
    run_inputs(runner.calculation, context, many, 8192)
    started = time.perf_counter()
    run_inputs(runner.calculation, context, many, ROWS)
    column = ROWS / (time.perf_counter() - started)
    return {
        f"{name}: cases a second": {"floats": round(plain), "columns": round(column)},
        f"{name}: columns over floats (goal 20)": column / plain,
    }


def _vary(value: Any, spread: Any, chosen: bool) -> Any:
    """Spread the chosen quantities over the rows; keep the rest at their one value."""
    from tundish.leaves import Based

    if isinstance(value, Based):
        return Based(_vary(value.value, spread, chosen), value.basis)
    if isinstance(value, list):
        return [_vary(item, spread, chosen) for item in value]
    if hasattr(type(value), "model_fields"):
        return type(value).model_construct(
            **{f: _vary(getattr(value, f), spread, chosen) for f in type(value).model_fields}
        )
    if hasattr(value, "dtype"):
        return spread(value) if chosen else float(value[0])
    return value


def command(rounds: int) -> dict[str, Any]:
    """Seconds of a cold ``tundish calculate`` over an empty interpreter."""

    def timed(arguments: list[str]) -> float:
        found = []
        for _ in range(rounds):
            started = time.perf_counter()
            subprocess.run(arguments, check=False, stdout=subprocess.DEVNULL)
            found.append(time.perf_counter() - started)
        return statistics.median(found)

    empty = timed([sys.executable, "-c", ""])
    ours = timed(
        [sys.executable, "-m", "tundish.cli", "calculate", "hot-water-recovery", "--example"]
    )
    return {
        "command, s": {"empty interpreter": round(empty, 3), "tundish calculate": round(ours, 3)},
        "command over empty interpreter (goal: under 0.5 s)": ours / empty,
    }


def main() -> None:
    """Run everything and print it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=1.0)
    parser.add_argument("--rounds", type=int, default=5)
    options = parser.parse_args()
    from tundish.host import default_host

    host = default_host()
    recovery = dict(host.runner("hot-water-recovery").calculation.example)
    gas = {
        "gas": "natural-gas",
        "sections": [
            {
                "name": "run",
                "start": "meter",
                "end": "boiler",
                "tube": "copper-22x0.9",
                "length": {"value": 12, "unit": "m"},
            }
        ],
        "appliances": [
            {
                "name": "boiler",
                "node": "boiler",
                "heat_input": {"value": 30, "unit": "kW", "basis": "net"},
            }
        ],
    }
    measured: dict[str, Any] = {}
    measured |= http(options.seconds, options.rounds)
    measured |= starting(options.rounds)
    measured |= columns(
        "hot-water-recovery", recovery, ("store_volume", "start_temperature", "boiler_output")
    )
    measured |= columns("gas-pipe-sizing", gas, ("sections", "appliances"))
    measured |= command(options.rounds)
    for name, value in measured.items():
        print(f"{name}: {value:.2f}" if isinstance(value, float) else f"{name}: {value}")


if __name__ == "__main__":
    main()
