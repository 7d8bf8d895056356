from thruline.timing import statuses


def test_channels_count_from_1():
    assert statuses.on_channels(1, 16) & statuses.CONTROL_CHANGES == {0xB0, 0xBF}
    assert statuses.on_channels() == frozenset()
    assert statuses.on_channels(*range(1, 17)) == statuses.CHANNEL_MESSAGES


def test_every_status_byte_belongs_to_one_family():
    families = (
        statuses.CHANNEL_MESSAGES,
        statuses.SYSTEM_EXCLUSIVE,
        statuses.SYSTEM_COMMON,
        statuses.REAL_TIME,
    )
    assert sum(map(len, families)) == 128
    assert frozenset().union(*families) == set(range(0x80, 0x100))
    assert statuses.CLOCK | statuses.TRANSPORT | statuses.ACTIVE_SENSING < statuses.REAL_TIME
