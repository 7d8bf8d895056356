"""Every message there is, for property tests."""

from hypothesis import strategies as st

from thruline.midi.message import (
    ChannelPressure,
    ControlChange,
    Message,
    NoteOff,
    NoteOn,
    PitchBend,
    PolyPressure,
    ProgramChange,
    QuarterFrame,
    RealTime,
    RealTimeKind,
    SongPosition,
    SongSelect,
    SystemExclusive,
    TuneRequest,
)

channels = st.integers(1, 16)
data = st.integers(0, 127)
pairs = st.integers(0, 16383)

channel_messages: st.SearchStrategy[Message] = st.one_of(
    st.builds(NoteOff, channels, data, st.none() | data),
    st.builds(NoteOn, channels, data, st.integers(1, 127)),
    st.builds(PolyPressure, channels, data, data),
    st.builds(ControlChange, channels, data, data),
    st.builds(ProgramChange, channels, data),
    st.builds(ChannelPressure, channels, data),
    st.builds(PitchBend, channels, pairs),
)

real_time: st.SearchStrategy[Message] = st.builds(RealTime, st.sampled_from(RealTimeKind))

system_messages: st.SearchStrategy[Message] = st.one_of(
    st.builds(SystemExclusive, st.lists(data, max_size=12).map(bytes)),
    st.builds(QuarterFrame, st.integers(0, 7), st.integers(0, 15)),
    st.builds(SongPosition, pairs),
    st.builds(SongSelect, data),
    st.just(TuneRequest()),
    real_time,
)

messages = st.one_of(channel_messages, system_messages)
