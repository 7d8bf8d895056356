import pytest

from tests.rig.charts import addresses, full_chart, full_controller, problems


def a_setting(**more):
    return {
        "id": "x", "name": "X", "values": ["on", "off"], "factory": "on", "where": "MENU > 9",
        **more,
    }  # fmt: skip


def with_setting(**more):
    document = full_chart()
    document["setting"].append(a_setting(**more))
    return document


def test_a_plain_setting_is_fine():
    assert problems(with_setting()) == []


@pytest.mark.parametrize(
    ("spoilt", "where"),
    [
        ({"factory": "of"}, "setting[x].factory"),
        ({"values": ["on", "on"]}, "setting[x].values"),
        ({"means": {"On": "on"}}, "setting[x].means"),
        ({"governs": "program-receive", "values": ["on", "map"]}, "setting[x].means"),
        ({"governs": "program-receive", "means": {"on": "on"}}, "setting[x].means"),
        ({"governs": "program-receive", "socket": "out"}, "setting[x].socket"),
        ({"governs": "clock-send"}, "setting[x].governs"),  # another one does already
        ({"governs": "omni"}, "setting[x].governs"),  # and the channel does not say so
    ],
)
def test_settings_that_cannot_be_acted_upon(spoilt, where):
    assert addresses(with_setting(**spoilt)) == [where]


def test_a_wrong_factory_setting_gets_the_nearest_value():
    assert 'did you mean "off"?' in problems(with_setting(factory="of"))[0][1]


@pytest.mark.parametrize("means", ["off", "thru-soft", "on"])
def test_a_value_means_a_way_that_the_output_has(means):
    document = full_chart()
    document["setting"][0]["means"]["mine"] = means
    assert addresses(document) == ["setting[out].means"]


def test_an_output_setting_names_an_output():
    document = full_chart()
    document["output"] = [document["output"][0]]
    assert "setting[out].socket" in addresses(document)


def test_two_settings_may_not_govern_one_output():
    document = full_chart()
    document["setting"].append({**document["setting"][0], "id": "again", "socket": "out"})
    assert addresses(document) == ["setting[again].governs"]


def test_a_setting_for_all_outputs_fits_each_of_them():
    document = full_chart()
    del document["setting"][0]["socket"]
    found = addresses(document)
    assert set(found) == {"setting[out].means"}  # the electrical copy has none of these ways


def test_several_ways_need_a_setting():
    document = full_chart()
    del document["setting"][0]
    assert addresses(document) == ["output[out].ways"]


@pytest.mark.parametrize(
    ("means", "is_right"), [("wiper-on-tip", True), ("wiper-on-ring", True), ("on", False)]
)
def test_a_pedal_input_is_set_to_a_wiring(means, is_right):
    wiring = a_setting(
        governs="expression-wiring", socket="exp", means={"on": means, "off": "wiper-on-tip"}
    )
    assert (problems(full_controller(setting=[wiring])) == []) is is_right


@pytest.mark.parametrize(
    ("send", "where"),
    [
        ({"what": "program", "setting": "clok"}, "send[program].setting"),
        ({"what": "program", "setting": "out"}, "send[program].setting"),
    ],
)
def test_what_is_sent_is_turned_on_by_an_on_off_setting(send, where):
    assert addresses(full_chart(send=[send])) == [where]


@pytest.mark.parametrize(
    ("channel", "where"),
    [
        ({"allowed": [1, 2, 2]}, "channel.allowed"),
        ({"allowed": [1, 2], "factory": 3}, "channel.factory"),
        ({"occupies": 2}, "channel.allowed"),
        ({"omni": "setting"}, "channel.omni"),
    ],
)
def test_channels_that_cannot_be(channel, where):
    assert addresses(full_chart(channel=channel)) == [where]


def test_omni_by_setting():
    document = with_setting(governs="omni")
    document["channel"] = {"omni": "setting"}
    assert problems(document) == []
