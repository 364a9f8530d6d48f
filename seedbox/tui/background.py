"""Long reckoning that nobody must wait for: it may be left alone, and quitting does not wait."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Callable
from threading import Thread
from typing import TypeVar

T = TypeVar("T")


async def in_background(work: Callable[[], T]) -> T:
    """What `work` returns, worked out in a thread of its own that ends with the program.

    Where the waiting is cancelled, the thread goes on and its answer is dropped.
    """
    loop = asyncio.get_running_loop()
    answer: asyncio.Future[T] = loop.create_future()

    def hand_over(set_it: Callable[[], None]) -> None:
        def if_awaited() -> None:
            if not answer.done():
                set_it()

        with contextlib.suppress(RuntimeError):  # the program has ended meanwhile
            loop.call_soon_threadsafe(if_awaited)

    def run() -> None:
        try:
            found = work()
        except Exception as fault:  # handed on, whatever it is
            failed = fault
            hand_over(lambda: answer.set_exception(failed))
        else:
            hand_over(lambda: answer.set_result(found))

    Thread(target=run, daemon=True).start()
    return await answer
