# The yard sketch, on the drawing and in words.
sketch-title = Yard sketch: { $name }
sketch-nothing = Nothing to draw yet: measure a section first.
sketch-section = { $number } { $name }: { $area }
sketch-not-measured = not measured
sketch-not-placed = not placed: where it lies in the yard is not known
sketch-assumed-tip = drawn with its tip over the middle of the base
sketch-assumed-sides = drawn with the parallel sides centred
sketch-assumed-base = drawn with the base line as a straight edge
sketch-assumed-radii = drawn through its radii; the area is by their mean
sketch-left-out-unplaced = { $n ->
    [one] { $n } part left out, place not measured
   *[other] { $n } parts left out, places not measured
}
sketch-left-out-placed = { $n ->
    [one] { $n } part left out, drawn where it lies
   *[other] { $n } parts left out, drawn where they lie
}
sketch-left-out-short = place not measured
sketch-lines = { $n ->
    [one] { $n } line to walk,
   *[other] { $n } lines to walk,
} { $spacing } apart; begin at the dot.
sketch-lines-across = { $n ->
    [one] Then { $n } line across (dashed).
   *[other] Then { $n } lines across (dashed).
}
sketch-lines-too-many = { $n } lines { $spacing } apart are too many to draw: check the swath
sketch-keep-off = keep off
sketch-wind = Wind from the { $from }, { $mean }
sketch-wind-from = from { $from }
sketch-down-wind = Down wind: { $name }, { $distance } from the edge
sketch-down-wind-on-it = On the section itself: { $name }
sketch-down-wind-unknown = { $name }: not known whether down wind, a place was not measured
sketch-from-n = north
sketch-from-ne = northeast
sketch-from-e = east
sketch-from-se = southeast
sketch-from-s = south
sketch-from-sw = southwest
sketch-from-w = west
sketch-from-nw = northwest
sketch-north-letter = N
sketch-east = { $length } east
sketch-west = { $length } west
sketch-north = { $length } north
sketch-south = { $length } south
sketch-place-unknown = place not measured
# What lies near; names after `sketch-mark-` are the core's.
sketch-mark-play-area = play area
sketch-mark-water = water
sketch-mark-well = well
sketch-mark-drain = drain
sketch-mark-bloom = bloom
sketch-mark-neighbour = neighbor
sketch-mark-hive = hive
sketch-mark-gate = gate
sketch-mark-street = street
sketch-mark-building = building
sketch-mark-tree = tree
sketch-mark-unknown = something else
