# Valores y límites de los resultados. Los nombres tras `shown-` son los de `Shown` en el núcleo.
shown-amount = { $amount }
shown-at-least = al menos { $least }
shown-at-most = como máximo { $most }
shown-between = { $least } a { $most }
shown-or-more = { $least } o más
shown-both-scales = { $fahrenheit } ({ $celsius })
shown-change = cambio de { $change } %
shown-changed = { $amount } ({ $change } % respecto al plan)
shown-within = ± { $percent }
shown-area-within = área ± { $percent }
shown-days-ago = { $days ->
    [one] hace un día
   *[other] hace { $days } días
}
shown-rain = { $chance-percent } %, { $amount }
shown-dry-for = seco durante { $time } después de tratar
shown-not-during-rain = no con lluvia: seco durante { $minutes } min (la etiqueta no fija tiempo; texto de la EPA de EE. UU. para etiquetas de piretroides de exterior)
shown-delta-t = Delta T { $celsius }
shown-delta-t-band = { $least } a { $care }, no desde { $stop }
shown-inversion-signs = { $count ->
    [one] una señal
   *[other] { $count } señales
}
shown-no-inversion-sign = ninguna señal de inversión
shown-soil-seen = { $soil }
shown-soil-that-takes-water = suelo que absorbe agua
shown-blooms-seen = { $bloom }
shown-no-blooms-in-reach = ninguna flor al alcance
shown-must-be-seen-to = debe atenderse
shown-off-wanted = { $amount } ({ $change } % respecto a lo deseado)
shown-drops = gotas de clase { $drops }
shown-drops-between = gotas de { $finest } a { $coarsest }
shown-percent-above = + { $percent } como máximo
shown-sides = { $least } por { $most }
shown-sides-or-more = { $least } por { $most } o más
shown-hours-before = { $hours } h antes de empezar
shown-sign-size = el tamaño del letrero
shown-sign-letters = la altura de las letras
shown-sign-bottom = la altura del borde de abajo
shown-sign-colour = su color
shown-sign-languages = los idiomas de sus palabras
shown-sign-white = blanco
shown-sign-both-languages = inglés y español
shown-sign-english = inglés
shown-lies-down-wind = { $count ->
    [one] una que puede alcanzarse
   *[other] { $count } que pueden alcanzarse
}
shown-nothing-down-wind = nada a favor del viento que la deriva alcance
shown-day = { $day }
shown-not-before = no antes del { $day }
shown-treatments = { $count ->
    [one] un tratamiento
   *[other] { $count } tratamientos
}
shown-ants-after = hormigas en la papita después de { $minutes } min
shown-no-ants-after = ninguna hormiga en la papita después de { $minutes } min
shown-ants-within = hormigas en la papita en menos de { $minutes } min
