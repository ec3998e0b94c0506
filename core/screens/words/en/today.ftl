# Today.
today-title = Today
today-no-yard = There is no yard yet. Add the first one: its name is enough to begin.
today-first-yard = Add a yard
