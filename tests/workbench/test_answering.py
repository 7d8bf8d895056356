import socket

from tests.workbench.asking import in_thread
from thruline.workbench.answering import answer_at


def test_who_came_before_anything_answered_is_answered(folder):
    with (
        socket.create_server(("127.0.0.1", 0)) as opened,
        socket.create_connection(opened.getsockname()) as asking,
    ):
        host = f"127.0.0.1:{opened.getsockname()[1]}"
        asking.sendall(f"GET /colours.css HTTP/1.1\r\nHost: {host}\r\n\r\n".encode())
        asking.settimeout(20)
        in_thread(lambda: answer_at(opened, folder, share=False, seconds=1))
        answer = asking.recv(65536)
    assert answer.startswith(b"HTTP/1.1 200")
    assert b"server:" not in answer.lower()
