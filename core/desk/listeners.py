"""Who is told of changes. Every listener hears every change, in the order in which they happened."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from typing import Generic, TypeVar

News = TypeVar("News")


class Listeners(Generic[News]):
    """Callbacks that are told news. One thread only."""

    def __init__(self) -> None:
        """Begin with nobody listening."""
        self._callbacks: dict[object, Callable[[News], None]] = {}
        self._waiting: deque[News] = deque()
        self._telling = False

    def listen(self, callback: Callable[[News], None]) -> Callable[[], None]:
        """Tell a callback all news from now on; call what is returned to stop."""
        key = object()
        self._callbacks[key] = callback

        def unlisten() -> None:
            self._callbacks.pop(key, None)

        return unlisten

    def tell(self, news: News) -> None:
        """Tell everybody who listens now. News that come up meanwhile wait until everybody has heard these.

        When a listener raises, the others are told all the same; then the first error goes on.
        """
        self._waiting.append(news)
        if self._telling:
            return
        self._telling = True
        errors: list[BaseException] = []
        try:
            while self._waiting:
                each = self._waiting.popleft()
                for key, callback in list(self._callbacks.items()):
                    if key in self._callbacks:
                        _call(callback, each, errors)
        finally:
            self._telling = False
        if errors:
            raise errors[0]


def _call(callback: Callable[[News], None], news: News, errors: list[BaseException]) -> None:
    try:
        callback(news)
    except Exception as error:  # noqa: BLE001  it is raised again once the others have heard
        errors.append(error)
