# Re-check.
recheck-title = Did it work?
recheck-none-planned = No return is planned.
recheck-counts = Counted on this visit
recheck-no-counts = Nothing was counted.
recheck-count = { $pest }: { $total } in { $samples ->
    [one] { $samples } sample
   *[other] { $samples } samples
}, { $at }
recheck-count-more = Count now
recheck-control-title = Percent control
recheck-control-help = Counts of the living, taken the same way: on the treated lawn and on a part left untreated, before treating and now.
recheck-treated-before = Treated, before
recheck-treated-after = Treated, now
recheck-check-before = Untreated, before
recheck-check-after = Untreated, now
recheck-work-out = Work it out
recheck-control = Control { $percent } % (Henderson–Tilton)
recheck-abbott = By what lives now alone: { $percent } % (Abbott)
recheck-interval = between { $least } and { $most } % (95 %)
recheck-may-be-none = So few were counted that it may have done nothing.
recheck-no-interval = Interval: the counts give none.
recheck-advice = Few counted mean a loose answer. Before treating again look whether the pest is still in a stage that can be reached, and whether the label allows a repeat.
recheck-plan-title = Plan a return
recheck-day = Day
recheck-what = What for
recheck-what-re-check = Did it work?
recheck-what-look = Look again
recheck-what-repeat = The next application
recheck-what-other = Something else (say it below)
recheck-note = Note
recheck-plan = Plan it
recheck-new-visit = New visit to this yard
recheck-to-record = To the record
