from thruline.bench_wiring import IN_MEMORY, bench_keeping, bench_systems
from thruline.wiring import wall_clock


def test_there_is_always_a_wire_in_memory_whatever_is_installed():
    systems = bench_systems(wall_clock())
    assert f"{IN_MEMORY}loop" in systems.inputs()
    out, into = (
        systems.open_output(f"{IN_MEMORY}loop"),
        systems.open_input(f"{IN_MEMORY}loop"),
    )
    out.send(b"\xc0\x01")
    assert [one.data for one in into.take()] == [b"\xc0\x01"]


def test_captures_lie_in_the_workshop_by_rig(tmp_path, monkeypatch):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path))
    name, log = bench_keeping("pit").begin("one")
    log.add(["thruline capture 1"])
    log.close()
    assert (tmp_path / "captures" / "pit" / f"{name}.capture").exists()
    assert bench_keeping("club").captures.names() == ()
