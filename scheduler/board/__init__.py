"""The board for the wall: the week as one self-contained page."""

from scheduler.board.board_page import write_board

__all__ = ["write_board"]
