from thruline.base.errors import EXIT_WORLD_FAILED
from thruline.bench.face import Chunk, PortGone


def test_a_port_that_has_gone_is_the_worlds_trouble():
    assert PortGone("gone").exit_code == EXIT_WORLD_FAILED


def test_a_chunk_is_a_moment_and_bytes():
    assert Chunk(1, b"\xf8") == (1, b"\xf8")
