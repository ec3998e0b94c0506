# Tratar: ¿voy en la dosis?
treat-title = ¿Voy en la dosis?
treat-not-started = El tratamiento no ha empezado. Primero se revisan el cielo y el patio.
treat-to-ready = Prepararse
treat-ended = Esta visita terminó sin tratar.
treat-to-visit = A la visita
treat-no-taps = Con guantes sucios de producto no hay que tocar nada aquí hasta que termine.
treat-on-rate = En la dosis
treat-half-none = No se hizo revisión a medio camino.
treat-product = Producto
treat-rate = Dosis
treat-since = Empezado
treat-planned = Planeado para aplicar
treat-put-on = Aplicado hasta ahora
treat-equipment = Aplicado con
treat-lot = Lote
treat-gear = Equipo de protección puesto
treat-sections = Secciones
treat-area = Área
treat-state = Estado
treat-keep-off = Veda (no entrar)
treat-section-open = empezada; ninguna carga anotada
treat-section-loaded = { $n ->
    [one] una carga, última aplicación { $at }
   *[other] { $n } cargas, última aplicación { $at }
}
treat-section-done = hecha, última aplicación { $at }
treat-spill = Derrame o sorpresa: ayuda ahora
# La revisión a medio camino.
treat-half-title = Revisión a medio camino
treat-half-how = Pare en una parte que pueda nombrar, lea lo que queda y diga cuánta área está hecha.
treat-half-mix = De una mezcla, dé el producto que contiene, no la mezcla: medio tanque tiene la mitad de su producto.
treat-half-planned = Producto planeado para toda el área
treat-half-filled = Cargado hasta ahora
treat-half-left = Lo que queda adentro
treat-half-done = Área hecha
treat-half-check = Revisar la dosis
treat-half-at = Revisión a medio camino { $ago }
treat-half-rate-done = Dosis en la parte hecha
treat-half-used = Usado hasta ahora
treat-half-due = Se debía haber usado
treat-half-rest = Para lo que falta, con la dosis del plan
treat-half-missing = Falta para eso
treat-half-pace = Paso para lo que falta, con el mismo ajuste
# Una carga.
treat-load-title = Anotar una carga
treat-load-product = Producto aplicado, según lo medido
treat-load-water = Agua aplicada
treat-load-on = Se aplicó en
treat-load-when = Lo último se aplicó
treat-load-keep = Guardar la carga
treat-just-now = Ahora mismo
treat-at-time = A la hora de abajo
treat-time = Hora
treat-time-help = Solo si eligió una hora. Hora del patio, de hoy o de anoche.
# El final.
treat-finish-title = Terminar
treat-finish-when = Última aplicación
treat-times = Horas
treat-all-just-now = Todo ahora mismo
treat-each-at-time = Cada una a su hora de abajo
treat-at-last-load = Cada una con su última carga
treat-started-ago = Empezado { $ago }
treat-amount-not-known = No se sabe cuánto se aplicó
treat-note = Nota
treat-note-help = Lo que fue distinto del plan.
treat-finish = Terminar el tratamiento
treat-finished = Terminado
treat-to-keep-off = Veda: quién puede estar dónde
treat-to-record = El registro
# Lo que se hace después.
treat-care = Hecho después
treat-care-swept = Superficies duras barridas o sopladas, de vuelta al césped
treat-care-rinsed = Tanque, tolva y herramientas enjuagados
treat-care-emptied = Agua de enjuague o resto echado en césped que lo puede recibir
treat-care-gloves = Guantes lavados antes de quitárselos
treat-care-leftover = Producto sobrante guardado
treat-care-sign = Letrero puesto
treat-care-done = Hecho
treat-care-not-needed = Nada que hacer
treat-care-not-done = No hecho
treat-care-answer = Contestar lo que está abierto
treat-care-note = Lo que sobró, y adónde fue
treat-care-note-help = Puede quedar vacío.
treat-care-keep = Guardar las respuestas
treat-by-outsiders = Un aparato que no es de la cuadrilla escribió sobre este tratamiento. Sus cargas y revisiones no se cuentan aquí.
treat-to-settle = Por resolver
