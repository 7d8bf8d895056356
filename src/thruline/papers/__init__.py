"""Papers as data: sections, tables, drawings.

Comes in: a chart, a rig, a proof or a trace. Goes out: what stands on a sheet of paper, not how a
terminal shows it; drawings and pages come out as text (SVG, HTML). This package knows no file and
no terminal.
"""
