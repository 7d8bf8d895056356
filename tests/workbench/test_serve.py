import asyncio
import socket
import webbrowser
from threading import Event

import pytest

from tests.workbench.asking import in_thread
from thruline.base.errors import CannotUse
from thruline.workbench import answering
from thruline.workbench.serve import Wish, folder_of, serve


def test_it_says_where_it_is_and_stops(folder):
    told = []
    in_thread(lambda: serve(folder, Wish(browse=False, seconds=0), told.append))
    assert told[0].startswith("http://127.0.0.1:")
    assert folder_of(folder / "good.rig.toml") == folder.resolve()


def test_a_browser_that_takes_its_time_keeps_nobody_waiting(folder, monkeypatch):
    told, asked, started = [], [], Event()
    monkeypatch.setattr(webbrowser, "open", lambda place: asked.append(place) or started.wait(60))
    in_thread(lambda: serve(folder, Wish(seconds=0), told.append))
    started.set()
    assert asked == told


def test_no_piece_of_an_answer_waits_for_an_acknowledgement(folder, monkeypatch):
    undelayed = []

    async def talk(opened):
        met = asyncio.Event()

        def meet(_, writer):
            here = writer.get_extra_info("socket")
            undelayed.append(here.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
            writer.close()
            met.set()

        async with await asyncio.start_server(meet, sock=opened):
            _, writer = await asyncio.open_connection(*opened.getsockname())
            await met.wait()
            writer.close()

    def asked(opened, *_, **__):
        asyncio.run(talk(opened))

    monkeypatch.setattr(answering, "answer_at", asked)
    in_thread(lambda: serve(folder, Wish(browse=False), print))
    assert undelayed == [1]


def test_a_port_in_use_is_told(folder):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        with pytest.raises(CannotUse, match=f"port {port} is in use"):
            in_thread(lambda: serve(folder, Wish(port=port, browse=False, seconds=0), print))


def test_the_place_must_be_there(tmp_path):
    with pytest.raises(CannotUse, match="is not there"):
        in_thread(lambda: serve(tmp_path / "x", Wish(browse=False, seconds=0), print))


def test_a_rig_with_problems_is_told_before_anything_is_served(folder):
    (folder / "good.rig.toml").write_text("[[preset")
    with pytest.raises(CannotUse, match=r"good\.rig\.toml:1"):
        in_thread(lambda: serve(folder / "good.rig.toml", Wish(browse=False, seconds=0), print))
