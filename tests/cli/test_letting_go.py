import click
import pytest
from click.testing import CliRunner

from thruline.cli.letting_go import until_the_end


class Port:
    name, longest = "A", None

    def __init__(self):
        self.told = []

    def send(self, data):
        self.told.append(data)

    def close(self):
        self.told.append("closed")


@pytest.mark.parametrize("fails", [False, True])
def test_ports_are_closed_behind_the_last_message_however_it_ends(fails):
    ports = [Port(), Port()]

    @click.command()
    def speak():
        for one in until_the_end(ports):
            one.send(b"\xf8")
        if fails:
            raise click.Abort

    assert CliRunner().invoke(speak).exit_code == int(fails)
    assert [one.told for one in ports] == [[b"\xf8", "closed"]] * 2
