"""When: each message on each MIDI line, in whole microseconds.

Comes in: the rig with its links, and the messages that its controller hands over, with the time of
each. Goes out: for every line, its messages in order with the time their first byte begins and
their last byte has ended, and what a full buffer lost; for every unit, what becomes of each message
that reaches it, and when it is right. Nothing is rounded and nothing is sampled.

The arithmetic knows nothing of rigs: a line is a number, a message its length, its status byte and
a time. From the top:

    play       a network and its traffic in, a flow for every line out
    batch      the same for many sendings at once
    network    the lines and what feeds them
    traffic    what senders hand over; statuses names sets of status bytes
    flow       one line's messages in order, with their times
    arrivals   what comes to one output: latency, what is not passed on, merge
    output     one output: whole messages, or byte by byte where real time slips in
    tandem     many units in a row that pass on the same messages, all of them in one go
    queues     the arithmetic itself: a first-in first-out queue as a running maximum
    room       how full a buffer gets; loss, what one that is too small loses

What it does not know: presets and their goals, nor what a message ought to have said.
"""
