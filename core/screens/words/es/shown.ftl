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
shown-day = { $day }
shown-not-before = no antes del { $day }
shown-treatments = { $count ->
    [one] un tratamiento
   *[other] { $count } tratamientos
}
shown-ants-after = hormigas en la papita después de { $minutes } min
shown-no-ants-after = ninguna hormiga en la papita después de { $minutes } min
shown-ants-within = hormigas en la papita en menos de { $minutes } min
