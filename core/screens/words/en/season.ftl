# The invented season.
season-making = Making the invented season
season-made = Ready: an invented crew, five yards, ten weeks. Try anything; no record here counts.
