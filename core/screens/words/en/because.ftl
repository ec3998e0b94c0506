# Why treating may pay or not. Names after `because-` are those of the core's `Because`.
because-no-sample = No sample was taken: take some first.
because-no-density = The counts give no density: count again.
because-no-threshold = No threshold is known for this pest: ask your extension office.
because-above = { $mean-per-ft2 } per ft² ({ $lower-per-ft2 } to { $upper-per-ft2 }) is above the threshold of { $least-per-ft2 } to { $most-per-ft2 } per ft².
because-below = { $mean-per-ft2 } per ft² ({ $lower-per-ft2 } to { $upper-per-ft2 }) is below the threshold of { $least-per-ft2 } to { $most-per-ft2 } per ft².
because-neither = { $mean-per-ft2 } per ft² ({ $lower-per-ft2 } to { $upper-per-ft2 }) is neither surely above nor surely below the threshold of { $least-per-ft2 } to { $most-per-ft2 } per ft²: take more samples, or look again in a week or two.
