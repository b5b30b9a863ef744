"""A run written into its record, and its estimate taken out of it again for a revision."""

from quoting.recording.archive import unpack
from quoting.recording.price_records import result_id
from quoting.recording.whole_run import describe, make_record

__all__ = ["describe", "make_record", "result_id", "unpack"]
