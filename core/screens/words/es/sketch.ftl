# El croquis del patio, en el dibujo y en palabras.
sketch-title = Croquis del patio: { $name }
sketch-nothing = Todavía no hay nada que dibujar: mida primero una sección.
sketch-section = { $number } { $name }: { $area }
sketch-not-measured = sin medir
sketch-not-placed = sin ubicar: no se sabe dónde queda en el patio
sketch-assumed-tip = dibujado con la punta sobre la mitad de la base
sketch-assumed-sides = dibujado con los lados paralelos centrados
sketch-assumed-base = dibujado con la línea de base como borde recto
sketch-assumed-radii = dibujado por sus radios; el área es la de su promedio
sketch-left-out-unplaced = { $n ->
    [one] { $n } parte exceptuada, lugar sin medir
   *[other] { $n } partes exceptuadas, lugares sin medir
}
sketch-left-out-placed = { $n ->
    [one] { $n } parte exceptuada, dibujada donde está
   *[other] { $n } partes exceptuadas, dibujadas donde están
}
sketch-left-out-short = lugar sin medir
sketch-lines = { $n ->
    [one] { $n } línea para caminar,
   *[other] { $n } líneas para caminar,
} cada { $spacing }; empiece en el punto.
sketch-lines-across = { $n ->
    [one] Luego { $n } línea cruzada (a rayas).
   *[other] Luego { $n } líneas cruzadas (a rayas).
}
sketch-lines-too-many = { $n } líneas cada { $spacing } son demasiadas para dibujar: revise el ancho de pasada
sketch-keep-off = no entrar
sketch-wind = Viento del { $from }, { $mean }
sketch-wind-from = del { $from }
sketch-down-wind = Viento abajo: { $name }, a { $distance } del borde
sketch-down-wind-on-it = En la misma sección: { $name }
sketch-down-wind-unknown = { $name }: no se sabe si queda viento abajo, falta medir un lugar
sketch-from-n = norte
sketch-from-ne = noreste
sketch-from-e = este
sketch-from-se = sureste
sketch-from-s = sur
sketch-from-sw = suroeste
sketch-from-w = oeste
sketch-from-nw = noroeste
sketch-north-letter = N
sketch-east = { $length } al este
sketch-west = { $length } al oeste
sketch-north = { $length } al norte
sketch-south = { $length } al sur
sketch-place-unknown = lugar sin medir
# Lo que queda cerca; los nombres después de `sketch-mark-` son los del núcleo.
sketch-mark-play-area = área de juego
sketch-mark-water = agua
sketch-mark-well = pozo
sketch-mark-drain = desagüe
sketch-mark-bloom = flores
sketch-mark-neighbour = vecino
sketch-mark-hive = colmena
sketch-mark-gate = portón
sketch-mark-street = calle
sketch-mark-building = edificio
sketch-mark-tree = árbol
sketch-mark-unknown = otra cosa
