"""t"""
from msgspec import Struct
class Line(Struct, frozen=True):
    text: str
