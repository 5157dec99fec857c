"""Processes that a review hands its recipes to."""

import os
from contextlib import ExitStack
from math import ceil
from typing import TYPE_CHECKING

import click

from mashwright.budgets import JOBS
from mashwright.signals import begin_worker

if TYPE_CHECKING:
    from concurrent.futures import Executor

PARALLEL_FROM = 400
"""Files from which several processes are worth their start, some 0.1 s each; measured."""


def executor(stack: ExitStack, number: int, jobs: int | None) -> "Executor | None":
    """Processes as asked for, else one for each core where there are files enough; no more than there is work for."""
    if jobs is None:
        jobs = min(os.cpu_count() or 1, JOBS) if number >= PARALLEL_FROM else 1
    if jobs > JOBS:
        raise click.ClickException(f"--jobs {jobs} is more than mashwright starts; give at most {JOBS}")
    if jobs == 1:
        return None
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing import Pipe

    from mashwright.reviewing.batches import BATCH, no_processes

    try:
        asked, asking = Pipe(duplex=False)
        most = min(jobs, max(1, ceil(number / BATCH)))
        pool = ProcessPoolExecutor(most, initializer=begin_worker, initargs=(asked,))
    except (OSError, NotImplementedError, ImportError) as error:  # a system without the locks that they share
        raise click.ClickException(no_processes(error)) from None

    def let_go(kind: object, *_: object) -> None:
        if kind is not None:  # on an interrupt or a closed pipe nobody waits for what is handed out
            asking.send_bytes(b".")
        pool.shutdown(cancel_futures=True)

    stack.push(let_go)
    return pool
