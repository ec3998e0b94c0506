# Hoy.
today-title = Hoy
today-no-yard = Todavía no hay ningún patio. Añada el primero: con el nombre basta para empezar.
today-first-yard = Añadir un patio
today-start = Empezar una visita
today-time-uncertain = Hora incierta: nada respalda el reloj de este aparato, así que ninguna veda puede darse por terminada.
today-confirm-time = Confirmar la hora
today-keep-offs = Vedas en curso
today-no-keep-offs = Ninguna en curso, que sepa este libro.
today-keep-off-open = Mirar, avisar o cambiar
today-stops = Visitas abiertas
today-no-stops = No hay ninguna visita abierta.
today-open = abierta
today-treating = en tratamiento, sin terminar
today-more = y { $n } más
today-returns = Revisiones pendientes
today-no-returns = Ninguna pendiente hasta mañana.
today-settle = { $n ->
    [one] { $n } pregunta por resolver
   *[other] { $n } preguntas por resolver
}
today-yard-missing = un patio que todavía no ha llegado
today-things = Por atender
today-short = { $product }, lote { $lot }: escaso, quedaban { $left } en el último recuento
today-licence = { $name }: la licencia vence { $day }
today-licence-over = { $name }: la licencia venció { $day }
today-to-things = Equipo y existencias
today-alone = Solo en este aparato
today-alone-entries = { $n ->
    [0] Todo está también en otro teléfono.
    [one] { $n } entrada no consta en ningún otro teléfono.
   *[other] { $n } entradas no constan en ningún otro teléfono.
}
today-swapped = intercambiado con { $who } { $ago }
today-swap = Intercambiar registros
today-backup = Hacer una copia de seguridad
today-leave-season = Salir de la temporada inventada
