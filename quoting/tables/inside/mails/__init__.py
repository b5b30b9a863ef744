"""Mails as sheets: .eml by the standard library, .msg by python-oxmsg."""

from quoting.tables.inside.mails.eml import read_mail
from quoting.tables.inside.mails.msg import read_msg

__all__ = ["read_mail", "read_msg"]
