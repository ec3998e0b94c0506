# What rules ask a record to hold. Names and sources of rules stay as they were published.
rule-title = What rules ask for
rule-check-yours = What the crew recorded. What a record must hold depends on state, product and licence: check your state's current rule.
rule-not-all = These are the rules that were read for this program. There are more, and none stands in for another.
rule-summary = { $filled } of { $all } filled, { $look } to look for in the text, { $missing } empty
rule-filled = something stands there
rule-look-in-text = look whether the text says it
rule-missing = empty
rule-not-applicable = not asked for here
rule-fill = Fill it
rule-keep = How long a record is kept
rule-years = { $n ->
    [one] { $n } year
   *[other] { $n } years
}
rule-from-memory = { $said }, from memory, not read: confirm it
rule-write-within = Written within
rule-days = { $n ->
    [one] { $n } day
   *[other] { $n } days
}
rule-check-current = Filled says that something stands there, not that it is right or enough. Check your current rule.
rule-about-usda-7-cfr-110-3 = Restricted-use products only: never a measure for work under a state's rules for hire.
rule-about-new-york-ecl-33-1205 = Applications in New York.
rule-about-minnesota-stat-18b-37 = Commercial applications in Minnesota; the customer gets a copy.
rule-about-texas-4-tac-chapter-7 = General records in Texas. Structural service records are another section; which one governs a lawn is for you to confirm.
rule-about-georgia-40-21-5 = Commercial applications in Georgia.
rule-about-pennsylvania-7-pa-code-128-35 = Applications in Pennsylvania; the hour of completion where a re-entry time applies.
# Names after `rule-field-` are the core's own.
rule-field-product = Product
rule-field-registration-number = Registration number
rule-field-total-product = Product in all, undiluted
rule-field-total-mix = Product and water in all
rule-field-rate = Rate
rule-field-method = How it went on
rule-field-equipment = Equipment
rule-field-target = Pest
rule-field-date = Date
rule-field-start-time = Time it began
rule-field-finish-time = Time it was finished
rule-field-location = Place
rule-field-address-with-zip = Address with zip code
rule-field-site = What was treated
rule-field-area = Size of what was treated
rule-field-temperature = Air temperature
rule-field-wind-speed = Wind speed
rule-field-wind-direction = Wind direction
rule-field-customer = Customer
rule-field-company = Company
rule-field-applicator = Applicator
rule-field-licence-number = Licence number
rule-field-unexpected-occurrence = Anything unexpected
rule-field-disposal = Where left-over product and containers went
rule-may-govern = These may govern here
rule-state-not-read = The yard's state is not set, or no rule of it about records was read. There may be one.
rule-set-state = Say in which state the yard is
rule-confirm = Which rule governs is for you to confirm.
rule-others = Rules of other states
