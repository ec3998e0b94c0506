# Lo que está en todas las pantallas.
frame-skip = Ir al contenido
frame-back = Atrás
frame-help = Ayuda ya
frame-places = Lugares
frame-today = Hoy
frame-yards = Patios
frame-records = Registro
frame-crew = Cuadrilla
frame-things = Equipo
frame-season = Esta es una temporada inventada: personas, lugares y productos son ficticios.
frame-changed-elsewhere = Algo cambió en otra pantalla: mostrarlo
frame-fields-wrong = Algo no encaja todavía. Se dice junto a cada campo.
frame-nothing-lost = No se guardó nada. Todo lo que escribió sigue aquí.
frame-draft = Sin enviar, de { $ago }.
frame-draft-drop = Descartar
frame-draft-kept = Conservado
frame-draft-failed = Sin conservar: el programa no responde
frame-how = ¿Cómo?
frame-formula = Fórmula
frame-source = Fuente
frame-not-known = no se sabe
frame-pad-done = Listo
frame-pad-delete = Borrar
frame-pad-earlier = Antes
frame-location-refused = Sin ubicación: permítala en el navegador o mida con cinta.
frame-location-waiting = Esperando una posición …
frame-label-is-the-law = Lea y siga la etiqueta; su estado y su municipio pueden exigir más.
frame-no-date = no se puede dar una fecha
frame-ago = hace { $span }
frame-ahead = en { $span }
frame-minutes = { $n ->
    [one] { $n } minuto
   *[other] { $n } minutos
}
frame-hours = { $n ->
    [one] { $n } hora
   *[other] { $n } horas
}
frame-days = { $n ->
    [one] { $n } día
   *[other] { $n } días
}
frame-no-book = No hay ningún libro abierto.
frame-nothing-here = No hay nada (o ya no hay nada) en esta dirección.
frame-too-large = Es más de lo que se puede recibir: envíe menos de una vez.
frame-no-form = No se pudo leer como formulario: vuelva atrás y envíelo otra vez.
frame-system = Swardbook no pudo hacerlo: { $said }
frame-cannot-be-said = esto no se puede decir con palabras
frame-not-shown = Esto no se puede mostrar
frame-to-today = Ir a hoy
frame-nearest-first = Primero lo más cercano
