"""A year of promises: how many are kept, how long customers wait, against honest dispatch.

An invented, seeded year (`invented`): quotes come, some are won, minutes, plates, welders and breakdowns go
as no setting knows. The shop plans every morning through `scheduler.replanning.replan` and promises every
quote through `scheduler.promising.promise` (`planned`); quotes are not nested and no books are written. With
`--learn` the same year is played once more by a shop that learns every month from what its rolling took
(`taught`). The rivals (`dispatched`) see the same year, without overtime.
"""
