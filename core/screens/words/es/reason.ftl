# Por qué un resultado es lo que es. Los nombres tras `reason-` son los de `Reason` en el núcleo.
reason-not-checked = Esto no se revisó.
reason-time-not-proven = La hora no está comprobada, así que no se sabe la edad de ninguna lectura: confírmela primero.
reason-time-to-come = Lleva una hora que todavía no llega: revise los relojes.
reason-not-looked-at = Todavía no se miró.
reason-looked-too-long-ago = Se miró hace { $age-min } min: mire otra vez.
reason-label-field-empty = No está llenado en la hoja lo que dice la etiqueta: { $field }.
reason-label-field-unusable = En la etiqueta, { $field } no puede ser { $given }: lea la etiqueta otra vez.
# Viento.
reason-wind-not-measured = No se midió el viento en el patio.
reason-no-recent-wind-reading = Ninguna lectura del medidor en los últimos { $within-min } min: mida otra vez.
reason-wind-judged-too-long-ago = El viento se juzgó hace { $age-min } min: mire otra vez.
reason-no-such-beaufort-force = La escala de Beaufort no tiene fuerza { $force }; termina en 12.
reason-wind-reading-to-come = Una lectura no sirve: lleva una hora que todavía no llega. Revise los relojes.
reason-wind-reading-unusable = Una lectura no sirve: { $given } no es una velocidad de viento. Mida otra vez.
reason-wind-direction-unusable = Una lectura no sirve: ningún viento viene de { $degrees } grados. Mida otra vez.
reason-too-few-wind-readings = { $count } de las { $needed } lecturas que pide una serie.
reason-wind-readings-too-close = Las lecturas abarcan { $span-s } s; una serie pide { $needed-s } s.
reason-no-gust-noted = No se anotó ráfaga: anote lo más alto que mostró el medidor.
reason-far-wind-never-clears = Una estación o un pronóstico solos nunca dan por bueno el viento de un patio.
reason-label-sets-no-wind = La etiqueta no fija límite de viento.
reason-wind-above-advised = El viento pasa de lo aconsejado.
reason-wind-common-advice = { $speed } es el consejo común.
reason-wind-above-label = El viento pasa del límite de la etiqueta.
reason-wind-calm = Calma: las gotas finas quedan en el aire y vagan.
reason-wind-near-label = El viento está cerca del límite de la etiqueta.
reason-wind-under-label-above-advised = El viento está bajo el límite de la etiqueta, pero pasa de lo aconsejado.
reason-wind-under-label = El viento está bajo el límite de la etiqueta.
reason-by-meter = { $count } lecturas del medidor, media { $mean }{ $gust ->
    [none] {""}
   *[other] , ráfaga { $gust }
}.
reason-by-beaufort = Fuerza { $force } de Beaufort, contada por su extremo alto.
reason-by-station = Por la estación { $station }, hace { $age-min } min.
reason-by-forecast = Por el pronóstico para la hora del tratamiento.
reason-at-yard = Medido en el patio.
# Lluvia.
reason-no-forecast = No hay pronóstico.
reason-forecast-to-come = El pronóstico lleva una hora que todavía no llega: revise el reloj.
reason-forecast-too-old = El pronóstico tiene { $age-h } h, más de las { $most-h } h que vale: descárguelo otra vez.
reason-rain-expected = Se espera lluvia: { $amount } o más con { $chance-percent } % o más en ese tiempo.
reason-rain-possible = Puede llover algo: { $chance-percent } % o más, o alguna cantidad.
reason-no-rain-expected = No se espera lluvia en ese tiempo.
reason-forecast-lacks = El pronóstico no trae { $layer }.
reason-forecast-ended = En el pronóstico, { $layer } terminó hace { $hours-ago } h: descárguelo otra vez.
reason-forecast-ends-too-soon = En el pronóstico, { $layer } termina antes del tiempo que debe quedar seco.
reason-forecast-has-gap = En el pronóstico, { $layer } tiene un hueco en ese tiempo.
# Aire.
reason-label-sets-no-temperature = Una persona leyó la etiqueta, y no fija temperatura.
reason-air-not-measured = No se midió el aire del patio.
reason-air-measured-too-long-ago = El aire se midió hace { $age-min } min: mida otra vez.
reason-air-reading-unusable = El aire no pudo estar a { $given }: mida otra vez.
reason-temperature-below-label = El aire está por debajo del mínimo de la etiqueta.
reason-temperature-above-label = El aire está por encima del máximo de la etiqueta.
reason-temperature-near-label = El aire está cerca del límite de la etiqueta.
reason-temperature-within-label = El aire está dentro de los límites de la etiqueta.
reason-no-humidity = No se midió la humedad en el patio.
reason-outside-wet-bulb-range = Qué tan rápido secan las gotas solo se sabe de -20 a 50 °C y de 5 a 99 % de humedad.
reason-drops-dry-too-fast = Las gotas secan demasiado rápido: se encogen, derivan y secan antes de actuar.
reason-drops-dry-fast = Las gotas secan rápido: use gotas más gruesas o espere aire más fresco.
reason-drops-dry-slowly = Las gotas secan despacio y se quedan en el aire; puede ser una inversión.
reason-drops-dry-well = Las gotas no secan ni demasiado rápido ni demasiado despacio.
# Lo que se vio.
reason-no-inversion-sign = No se vio ninguna señal de inversión.
reason-inversion-seen = El aire no se mezcla: las gotas finas quedan en él y vagan.
reason-inversion-possible = Puede que el aire no se mezcle: observe humo o polvo antes de pulverizar.
reason-soil-takes-water = El suelo absorbe agua.
reason-soil-dust-dry = En suelo seco como polvo el producto queda encima: riegue primero si la etiqueta lo permite.
reason-soil-soaked = De un suelo empapado el producto escurre.
reason-soil-frozen = De un suelo helado el producto escurre.
reason-no-blooms = No hay flores a las que vengan abejas.
reason-blooms-beside = Hay abejas en flores junto al césped: que la deriva no las alcance.
reason-blooms-on-lawn = Hay abejas en flores del césped: córtelas primero.
# El recorrido del patio.
reason-not-answered = { $question }: todavía no se miró.
reason-answer-not-dated = { $question }: la hora no está comprobada; confírmela y mire otra vez.
reason-answer-to-come = { $question }: la respuesta lleva una hora que todavía no llega; mire otra vez.
reason-answer-too-old = { $question }: se miró hace { $age-min } min; mire otra vez.
reason-seen-to = { $question }: atendido.
reason-none-here = { $question }: no hay.
reason-toys-stay = Juguetes: lo que queda en el césped se trata con él; lávelo antes de que lo toque un niño.
reason-bowls-stay = Platos: una mascota comería o bebería el producto.
reason-laundry-hangs = Ropa tendida: la deriva cae en la ropa; que la laven otra vez.
reason-windows-open = Ventanas: la deriva entra por ventanas abiertas y tomas de aire; no se acerque a ese lado.
reason-pond-or-hive-open = Estanque o colmena: pequeñas cantidades matan peces y abejas; cúbralos o deje esa parte exceptuada.
reason-irrigation-on = Riego: si el reloj arranca, lava el producto o moja lo que debe quedar seco.
reason-gates-open = Portones: por un portón abierto entran niños y mascotas; ponga ahí a alguien o un letrero.
reason-puddles-there = Charcos: el producto en agua parada o corriente sale del césped con ella.
reason-hard-surfaces-reached = Superficies duras: lo que cae en ellas corre al desagüe; barra los gránulos de vuelta al césped.
reason-drains-open = Desagües y aguas abiertas: el producto que llega a un desagüe llega a aguas abiertas.
reason-people-or-pets-there = Personas y mascotas: nadie puede estar en el césped mientras se trata.
# Dosis y plan.
reason-rate-above-most = La dosis pasa del máximo de la etiqueta.
reason-rate-within-most = La dosis no pasa del máximo de la etiqueta.
reason-rate-empty = La dosis de la etiqueta no está llenada en la hoja de etiqueta.
reason-label-sets-no-rate = La hoja de etiqueta dice que la etiqueta no fija dosis.
reason-least-rate-empty = La dosis mínima de la etiqueta no está llenada en la hoja de etiqueta; si la etiqueta da una sola dosis y ningún rango, dígalo ahí.
reason-rate-below-least = La dosis está por debajo del mínimo de la etiqueta: puede que no actúe.
reason-carrier-below-least = Hay menos agua que el mínimo de la etiqueta.
reason-carrier-enough = El agua no está por debajo del mínimo de la etiqueta.
reason-least-carrier-empty = El agua mínima de la etiqueta no está llenada en la hoja de etiqueta.
reason-label-sets-no-carrier = La etiqueta no fija agua mínima.
reason-area-unsure = { $section } puede ser menor o mayor que lo medido, y su dosis también: mídala otra vez, o planee para el área menos su incertidumbre.
reason-rounded-below-least = Redondeada a lo que muestra el recipiente, la dosis cae por debajo del mínimo de la etiqueta: use una medida más fina.
reason-rounding-changes-much = Redondear a lo que muestra el recipiente cambia mucho una dosis: use una medida más fina.
reason-most-not-on-sheet = El máximo de la etiqueta no está en la hoja de etiqueta.
reason-half-way-above-most = Alto: la parte hecha pasa del máximo de la etiqueta y así queda. Corrija la dosis y trate lo que falta con la dosis del plan; no promedie.
reason-half-way-heavy = De más: corrija la dosis y trate lo que falta según el plan.
reason-half-way-light = De menos: corrija la dosis y trate lo que falta según el plan.
reason-half-way-on-rate = En la dosis del plan.
reason-no-plan = La visita no tiene plan con esta hoja de etiqueta: haga primero el plan.
reason-no-rate-yet = El plan todavía no tiene dosis: elija una.
# Hoja de etiqueta y repetición.
reason-read-back = { $person } releyó los números.
reason-not-read-back = Los números de la hoja de etiqueta no se releyeron desde que se cambiaron por última vez.
reason-repeat-empty = La hoja de etiqueta no dice nada del tiempo más corto entre dos tratamientos.
reason-yard-not-known = El patio todavía no se conoce.
reason-treated-too-recently = Este producto se aplicó hace demasiado poco.
reason-treated-long-ago = El último tratamiento de la cuadrilla con él fue hace suficiente tiempo; lo que otros aplicaron no se sabe.
reason-no-treatment-known = Ningún tratamiento con él en este libro; lo que otros aplicaron no se sabe.
# Cuándo puede abrirse de nuevo.
reason-may-open-by-forecast = Solo por el pronóstico: mida entonces el viento en el patio.
reason-wind-held-to-label = Viento comparado con { $speed } de la etiqueta.
reason-wind-held-to-advice = Viento comparado con { $speed }, el consejo común, porque no se conoce límite de la etiqueta.
reason-dry-held-to-label = Seco durante { $time } después de tratar.
reason-dry-held-to-advice = No con lluvia: seco durante { $minutes } min, porque la etiqueta no fija más tiempo.
reason-forecast-too-short = El pronóstico termina, o tiene un hueco, antes que el tiempo que hace falta.
reason-no-hour-will-do = Hasta el fin del pronóstico no sirve ninguna hora: { $wind-h } h de viento, { $rain-h } h de lluvia y { $temperature-h } h de temperatura pasan los límites.
# Tanques, selectores, pasadas.
reason-stop-area-not-known = { $section }: no se sabe el área tratada, y por eso tampoco la dosis.
reason-site-not-on-label = { $section }: la etiqueta no nombra un sitio así.
reason-site-not-checked = { $section }: nadie ha mirado si la etiqueta nombra un sitio así.
reason-already-not-known = { $section }: no se sabe qué se aplicó ya ahí.
reason-no-room-under-most = { $section } ya tiene el máximo de la etiqueta.
reason-no-dial-step = El selector no tiene un paso tan bajo: camine más rápido, hasta donde lo permita el mínimo de agua de la etiqueta, o use otro rociador.
reason-swath-as-calibrated = Las líneas están a la distancia con la que el ajuste da la dosis planeada.
reason-swath-not-known = No se sabe con qué ancho de pasada se calibró el ajuste: a otra distancia entre líneas la dosis cambia.
reason-swath-closer = Las líneas están más juntas que en la calibración: se aplica más de lo planeado.
reason-swath-wider = Las líneas están más separadas que en la calibración: se aplica menos de lo planeado.
reason-swath-above-most = Con este ajuste, estas líneas y tantas pasadas, se aplica más que el máximo de la etiqueta.
# Riego después de aplicar.
reason-water-in-asked = La etiqueta pide regar después de aplicar.
reason-water-in-no-depth = La etiqueta pide regar después de aplicar, y la hoja de etiqueta no tiene la lámina: lea la etiqueta otra vez.
reason-water-kept-off = La etiqueta pide no regar.
reason-watering-empty = En la hoja de etiqueta no está llenado si hay que regar.
reason-label-sets-no-watering = Alguien leyó la etiqueta, y no dice nada de regar después.
# Sumas de una temporada.
reason-season-above-most = { $ingredient }: por encima del máximo de la etiqueta para una temporada.
reason-season-within-most = { $ingredient }: dentro del máximo de la etiqueta para una temporada.
reason-season-most-not-known = { $ingredient }: el máximo de la etiqueta para una temporada no está en la hoja de etiqueta.
reason-season-part-not-known = { $ingredient }: { $count ->
    [one] no se sabe cuánto aplicó un tratamiento.
   *[other] no se sabe cuánto aplicaron { $count } tratamientos.
}
reason-others-not-known = No se sabe qué aplicaron otros: pregunte.
reason-others-said-none = Otros no aplicaron nada, según dijeron.
reason-last-treatment-not-known = No se sabe cuándo se aplicó esto por última vez.
reason-label-sets-no-limit = Alguien leyó la etiqueta, y aquí no fija ningún límite.
reason-season-count-reached = Se llegó al máximo de tratamientos por temporada de la etiqueta.
reason-season-count-within = Dentro del máximo de tratamientos por temporada de la etiqueta.
reason-season-count-empty = El máximo de tratamientos por temporada no está llenado en la hoja de etiqueta.
# Existencias.
reason-stock-enough = Hay suficiente.
reason-stock-short = Faltan { $amount }.
reason-stock-not-known = Lote { $lot }: no se sabe cuánto queda. Mídalo.
reason-lot-expired = El lote { $lot } pasó la fecha impresa: no lo use.
reason-lot-expiry-not-known = Lote { $lot }: nadie ha buscado una fecha impresa.
# Cebo y puntos.
reason-bait-fresh = El cebo está fresco.
reason-bait-not-fresh = El cebo está viejo, húmedo o rancio: las hormigas lo dejan.
reason-bait-wet = El cebo que se moja se echa a perder: espere suelo seco, sin lluvia ni riego por venir.
reason-bait-dry = El suelo está seco, sin lluvia ni riego por venir.
reason-ants-forage = Las hormigas andan buscando comida.
reason-ants-do-not-forage = Pocas hormigas andan buscando comida, y el cebo quedaría ahí: venga a mejor hora.
reason-spots-above-most = Los puntos juntos pasan el máximo de la etiqueta para esta área.
reason-spots-within-most = Los puntos juntos están dentro del máximo de la etiqueta para esta área.
