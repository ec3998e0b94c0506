# Una visita: ¿dónde estoy?
visit-title = ¿Dónde estoy?
visit-yard = Patio
visit-address = Dirección
visit-pest = Plaga
visit-state = Estado
visit-opened = Abierta
visit-people = Quién
visit-return = Regreso planeado para
visit-state-looking = todavía no se aplicó nada
visit-state-treating = tratando
visit-state-finished = tratamiento terminado
visit-state-not-treated = terminó sin tratar
visit-mind = Hay vedas vigentes en este patio
visit-to-keep-offs = Ir a las vedas
visit-steps = Pasos
visit-step-look = Mirar
visit-step-measure = Medir
visit-step-plan = Plan
visit-step-ready = Alistarse
visit-step-treat = Tratar
visit-step-keep-off = Veda
visit-step-recheck = Revisión
visit-step-done = hecho
visit-step-next = sigue
visit-step-open = abierto
visit-step-not-needed = aquí no hace falta
visit-step-blocked = todavía no
visit-go-look = Mirar
visit-go-measure = Medir
visit-go-plan = Planear
visit-go-ready = Alistarse
visit-go-treat = Tratar
visit-go-keep-off = Ver las vedas
visit-go-recheck = Revisar
visit-blocked-yard = el patio no ha llegado a este aparato: primero intercambie registros
visit-blocked-measure = primero mida una sección
visit-blocked-label = primero escriba una hoja de etiqueta
visit-blocked-read-back = primero haga releer los números de la hoja de etiqueta
visit-blocked-plan = primero complete el plan
visit-blocked-ready = primero alístese: el cielo y el patio deben haberse revisado justo antes
visit-blocked-start = todavía no se aplicó nada
visit-blocked-finish = todavía no hay ningún término registrado
visit-to-crew = Intercambiar registros
visit-to-labels = Ir a las hojas de etiqueta
visit-nothing-left = No queda nada por hacer en esta visita.
visit-questions = Por resolver
visit-to-settle = { $n ->
    [one] Una pregunta espera a una persona.
   *[other] { $n } preguntas esperan a una persona.
}
visit-settle = Resolver
visit-record = El registro
visit-end-here = Terminar aquí sin tratar
visit-history = { $n ->
    [one] Historial: una entrada
   *[other] Historial: { $n } entradas
}
visit-superseded = Corregido después: ya no vale.
visit-not-of-the-crew = Escrito por un aparato que no es de la cuadrilla.
# Qué es un hecho. Los nombres tras `visit-fact-` son los de los hechos del programa.
visit-fact-visit-opened = Visita abierta
visit-fact-counted = Conteo
visit-fact-wind-measured = Viento medido
visit-fact-sky-seen = Aire, suelo y flores observados
visit-fact-station-heard = Informe del tiempo recibido
visit-fact-walked-round = Recorrido del patio
visit-fact-judged = Cielo y patio evaluados
visit-fact-not-treated = Terminó sin tratar
visit-fact-started = Empezó el tratamiento
visit-fact-loaded = Carga aplicada
visit-fact-finished = Terminado
visit-fact-keep-off-claimed = Veda declarada
visit-fact-looked-dry = Visto seco
visit-fact-keep-off-released = Veda levantada
visit-fact-corrected = Corregido
visit-fact-finish-chosen = Un término elegido
visit-fact-late-settled = Carga tardía resuelta
visit-fact-one-job = Comparado con otra visita
visit-fact-return-planned = Regreso planeado
visit-fact-keep-off-told = Alguien fue avisado de las vedas
visit-fact-aftercare = Limpieza hecha
visit-fact-incident-filed = Incidente anotado
visit-fact-half-way-checked = Comprobado a la mitad
visit-fact-newer = Algo que escribió un programa más nuevo
visit-fact-control-counted = Contado antes y después, tratado y sin tratar
