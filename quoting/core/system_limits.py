"""What the operating system does not let a reading process go beyond, whatever a file does to it.

On Unix the process limits itself first thing; on Windows its parent puts it into a job object before it is
sent anything to read. Where a system has neither, the time limit of the parent remains.
"""

from __future__ import annotations

import sys
from contextlib import suppress
from typing import Any

if sys.platform != "win32":
    import resource

    def limit_this_process(memory_bytes: int) -> None:
        """Take from this process: more memory than this, writing files, dumps, and most open files."""
        for kind, most in (
            (resource.RLIMIT_AS, memory_bytes),
            (resource.RLIMIT_FSIZE, 0),
            (resource.RLIMIT_CORE, 0),
            (resource.RLIMIT_NOFILE, 64),
        ):
            with suppress(ValueError, OSError):  # some systems do not know or allow one of them
                resource.setrlimit(kind, (most, most))

    def limit_seconds(seconds: int) -> None:
        """Let this process use so many more seconds of processor time; then the system ends it."""
        used = resource.getrusage(resource.RUSAGE_SELF)
        soft = int(used.ru_utime + used.ru_stime) + seconds + 1
        with suppress(ValueError, OSError):
            resource.setrlimit(resource.RLIMIT_CPU, (soft, resource.RLIM_INFINITY))

    def confined(process: Any, memory_bytes: int) -> object:
        """Do nothing: the process limits itself."""
        return None

else:
    import ctypes
    from ctypes import wintypes

    _LIMITS = 9  # JobObjectExtendedLimitInformation
    _ONE_PROCESS, _MEMORY, _NO_ERROR_BOX, _KILL_ON_CLOSE = 0x8, 0x100, 0x400, 0x2000

    class _BasicLimits(ctypes.Structure):
        """JOBOBJECT_BASIC_LIMIT_INFORMATION."""

        _fields_ = (
            ("PerProcessUserTimeLimit", wintypes.LARGE_INTEGER),
            ("PerJobUserTimeLimit", wintypes.LARGE_INTEGER),
            ("LimitFlags", wintypes.DWORD),
            ("MinimumWorkingSetSize", ctypes.c_size_t),
            ("MaximumWorkingSetSize", ctypes.c_size_t),
            ("ActiveProcessLimit", wintypes.DWORD),
            ("Affinity", ctypes.c_size_t),
            ("PriorityClass", wintypes.DWORD),
            ("SchedulingClass", wintypes.DWORD),
        )

    class _ExtendedLimits(ctypes.Structure):
        """JOBOBJECT_EXTENDED_LIMIT_INFORMATION."""

        _fields_ = (
            ("Basic", _BasicLimits),
            ("Io", ctypes.c_ulonglong * 6),
            ("ProcessMemoryLimit", ctypes.c_size_t),
            ("JobMemoryLimit", ctypes.c_size_t),
            ("PeakProcessMemoryUsed", ctypes.c_size_t),
            ("PeakJobMemoryUsed", ctypes.c_size_t),
        )

    def limit_this_process(memory_bytes: int) -> None:
        """Do nothing: the parent has put this process into a job object."""

    def limit_seconds(seconds: int) -> None:
        """Do nothing: the parent ends a process that takes too long."""

    def confined(process: Any, memory_bytes: int) -> object:
        """Put a process into a job that ends with this one; return the job, to be kept as long as it lives.

        Best effort: without the right to make a job the time limit of the parent remains.
        """
        kernel = ctypes.WinDLL("kernel32", use_last_error=True)
        kernel.CreateJobObjectW.restype = wintypes.HANDLE
        kernel.CreateJobObjectW.argtypes = (ctypes.c_void_p, wintypes.LPCWSTR)
        kernel.SetInformationJobObject.argtypes = (
            wintypes.HANDLE, ctypes.c_int, ctypes.c_void_p, wintypes.DWORD,
        )  # fmt: skip
        kernel.AssignProcessToJobObject.argtypes = (wintypes.HANDLE, wintypes.HANDLE)
        job = kernel.CreateJobObjectW(None, None)
        limits = _ExtendedLimits()
        limits.Basic.LimitFlags = _ONE_PROCESS | _MEMORY | _NO_ERROR_BOX | _KILL_ON_CLOSE
        limits.Basic.ActiveProcessLimit = 1
        limits.ProcessMemoryLimit = memory_bytes
        kernel.SetInformationJobObject(job, _LIMITS, ctypes.byref(limits), ctypes.sizeof(limits))
        kernel.AssignProcessToJobObject(job, int(process._handle))
        return job
