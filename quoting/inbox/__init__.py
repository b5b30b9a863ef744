"""A folder that quotes: what is dropped there is priced into a folder of its own, with a note."""

from quoting.inbox.request import WatchRequest
from quoting.inbox.watch_job import watch_job

__all__ = ["WatchRequest", "watch_job"]
