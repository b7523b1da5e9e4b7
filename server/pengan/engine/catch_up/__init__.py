"""The rest of a night that is under way, worked out anew: after an interruption, or after an edit.

`rest.rest_of_night` is the way in. What ran counts as it ran; nothing is placed before `now`. The steps:

1. `happened` reads what really ran out of the journal, or takes the sheet's word for it.
2. `interrupted` cuts the outages out of every station's calendar, as closures of the part that they concern.
3. `served` says how far each turn has come, and what is left of its cycles.
4. `clock` keeps what the sheet still plans; `recover` looks for the best rest of the night, and falls back on that.
5. `whole` makes a night sheet of what ran and what is planned; `effect` says what that changes.
"""
