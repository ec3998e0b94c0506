# Por qué el libro rechaza una acción. Los nombres tras `refusal-` son los de las negativas del núcleo.
# Alrededor de un tratamiento.
refusal-return-before-visit = { $day } es antes de la visita: ponga el día en que se vuelve.
refusal-return-too-far = { $day } es más de { $years-most } años después de la visita: mire otra vez el año.
refusal-return-note-missing = Diga en la nota para qué se vuelve.
refusal-who-missing = Diga a quién se le avisó.
refusal-no-keep-off-told = Elija las secciones de las que se les avisó.
refusal-nothing-answered = Responda al menos una tarea, o escriba una nota.
refusal-answered-twice = Una tarea tiene dos respuestas: dé una sola.
refusal-incident-not-told = Diga qué pasó.
refusal-incident-yard-differs = Esta visita es a otro patio: elija uno de los dos.
# Quién es de la cuadrilla.
refusal-name-missing = Falta un nombre ({ $what }): llénelo.
refusal-name-unfit = Un nombre es demasiado largo o tiene un carácter que no se ve ({ $what }): dé una línea de { $bytes-most } bytes como máximo.
refusal-founded-its-crew = Este dispositivo empezó su cuadrilla: no hace falta que pida entrar.
refusal-not-of-a-crew-yet = Este teléfono todavía no es de una cuadrilla: reciba el primer archivo que el jefe de cuadrilla hizo después de admitirlo.
refusal-file-of-another-crew = Este archivo es de otra cuadrilla, y este libro se queda con la suya: elija un archivo de esta cuadrilla.
refusal-file-does-not-admit = Este archivo no admite este teléfono en su cuadrilla: pida al jefe de cuadrilla que reciba la solicitud de este teléfono y haga después un archivo nuevo.
refusal-practice-does-not-mix = Una cuadrilla de práctica y una real no se mezclan: pida entrar otra vez en otra carpeta, con práctica o sin ella.
refusal-keys-in-use-elsewhere = Las claves de este teléfono se usan también en otro: intercambie registros una vez, con lo que recibe claves nuevas, y siga.
refusal-no-keys = Este libro no tiene claves propias: restaure su copia de seguridad en una carpeta nueva, con lo que se hacen claves nuevas.
refusal-may-only-read = Este dispositivo solo puede leer (función de oficina): pida otra función a un jefe de cuadrilla.
refusal-only-crew-lead = Solo el dispositivo de un jefe de cuadrilla puede hacer esto: pídaselo a un jefe de cuadrilla.
refusal-belongs-already = Este dispositivo ya es de la cuadrilla: no hace falta nada más.
refusal-was-retired = Este dispositivo fue retirado: que pida entrar de nuevo, desde una carpeta vacía.
refusal-recovery-not-of-this-crew = El código de recuperación no es de esta cuadrilla: revise el nombre de la cuadrilla en la hoja impresa.
# Lo que se escribe en un campo.
refusal-field-too-long = { $field }: demasiado largo, { $bytes-most } bytes como máximo. Escríbalo más corto.
refusal-field-control-character = { $field }: tiene un carácter que no se ve. Escríbalo otra vez.
refusal-field-yes-no = { $field }: elija sí, no, o que la etiqueta no dice nada.
refusal-field-yes-or-no = { $field }: elija sí o no.
refusal-field-day = { $field }: esto no es un día. Escriba año-mes-día, como 2026-06-30.
refusal-field-bearing = { $field }: escriba grados desde el norte como las agujas del reloj, de 0 a 360.
refusal-field-position = { $field }: escriba la latitud y luego la longitud en grados, como 42.443961, -76.501881. Sur y oeste van bajo cero.
refusal-field-names-nothing = { $field }: esto no nombra nada. Elíjalo de la lista.
refusal-offset-too-far = { $field }: { $offset } es demasiado lejos. Ponga { $metres-most } m como máximo a cada lado de donde empieza el croquis.
refusal-field-choice = { $field }: elija una de estas: { $words }.
refusal-zone-unknown = Esta no es una zona horaria conocida: escriba una como America/New_York o Europe/Madrid.
refusal-field-drawn = { $field }: esto se mide o se dibuja, no se escribe.
refusal-field-amount = { $field }: { $rule }
refusal-field-dimension = { $field }: { $typed } es { $dimension }, y hace falta { $wanted }. Revise el número y su unidad.
refusal-field-negative = { $field }: esto no puede ser negativo. Revise el signo.
refusal-field-zero-rate = { $field }: cero no es una dosis. Deje el campo vacío si la etiqueta no da ninguna.
refusal-watering-in = Riego de incorporación: elija exigido con su profundidad, o que no se permite con su tiempo, o que la etiqueta no dice nada.
refusal-field-missing = { $field }: llénelo, no puede quedar vacío.
refusal-yard-name-missing = Un patio necesita un nombre: llénelo.
refusal-section-name-missing = Una sección necesita un nombre: llénelo.
# Vedas.
refusal-no-section-looked-at = Elija la sección que miró.
refusal-treating-not-finished = { $section }: el tratamiento no está terminado. Termínelo primero.
refusal-looked-too-early = { $section }: usted miró antes de la última aplicación. Mire otra vez.
refusal-only-crew-lead-lifts = Solo el dispositivo de un jefe de cuadrilla puede levantar una veda: pídaselo a un jefe de cuadrilla.
# Hojas de etiqueta.
refusal-method-missing = En esta hoja de etiqueta no está llenado, o no está acordado, cómo se aplica el producto: elija gránulos, rociado sobre las hojas, riego al suelo o cebo.
refusal-product-missing = Una hoja de etiqueta necesita el nombre del producto tal como está impreso: llénelo.
refusal-ingredient-name-missing = Un ingrediente necesita su nombre genérico: llénelo.
refusal-second-person-missing = Diga el nombre de la segunda persona que leyó la etiqueta. Si está solo, escriba los números una segunda vez.
refusal-field-in-doubt = { $field }: dos teléfonos dicen cosas distintas: { $values }. Resuélvalo primero con la etiqueta en la mano.
refusal-read-back-differs = Las dos lecturas no coinciden: lea la etiqueta otra vez. { $faults }
refusal-rates-of-two-kinds = Dosis mínima y dosis máxima: una es por peso y la otra por volumen. Mire la etiqueta otra vez.
refusal-rates-upside-down = La dosis mínima ({ $least }) pasa de la dosis máxima ({ $most }): mire la etiqueta otra vez.
refusal-season-of-another-kind = Dosis máxima y máximo en una temporada: una es por peso y el otro por volumen. Dé los dos en producto, y mire la etiqueta otra vez.
refusal-season-below-rate = El máximo en una temporada ({ $season }) está por debajo de la dosis máxima ({ $most }): dé los dos en producto, y mire la etiqueta otra vez.
# Correcciones, y lo que varios teléfonos dijeron distinto.
refusal-nothing-to-correct = Elija el hecho que está mal.
refusal-not-like-by-like = Una corrección cambia igual por igual, un conteo por un conteo, una carga por una carga: corríjalo con uno de la misma clase.
refusal-of-another-visit = Lo que vale en su lugar es de otra visita: elija uno de la misma.
refusal-no-finish-to-correct = No hay un final que corregir: termine primero.
refusal-not-one-yard = Solo dos visitas al mismo patio pueden ser un solo trabajo: elija dos de un mismo patio.
# Archivos, discos y relojes.
refusal-backup-is-there = { $file } ya existe, y una copia de seguridad nunca sobrescribe: dé otro nombre de archivo.
refusal-too-much-at-once = Demasiado en un solo paso: hágalo en varios.
refusal-disk-unsuited = Este disco no admite el registro de escritura anticipada del libro: elija una carpeta en un disco local común.
refusal-path-not-text = La ruta no es texto válido: elija una carpeta con un nombre simple.
refusal-write-once-first = Este libro es del formato { $found }, que hay que poner al día: ábralo una vez para escribir en su propio dispositivo.
refusal-no-longer-read = Este libro es del formato { $found } y tiene entradas que este programa ya no lee. No se cambió nada: siga con el programa que lo escribió.
refusal-time-confirmed-by-nobody = Diga quién o qué confirma la hora.
refusal-time-told-to-come = Esa hora es posterior a la que cuenta el propio reloj de este aparato: dígala otra vez.
refusal-pretended-clock = Un reloj fingido es solo para libros de práctica, y este es real.
# Empezar, cargar y terminar.
refusal-visit-not-open = Esta visita ya se empezó o ya terminó: abra otra visita para tratar de nuevo.
refusal-checked-too-long-ago = El cielo y el patio se revisaron hace { $age-min } min; se aceptan { $min-most } como máximo: revise otra vez y empiece.
refusal-not-checked = El cielo y el patio todavía no se revisaron para esta hoja de etiqueta: revíselos primero y después empiece.
refusal-not-acknowledged = No se sabe: { $findings } Revíselo, o reconozca cada cosa por su nombre.
refusal-dont-treat = No tratar: { $findings } Para anotar un comienzo de todos modos, dé el motivo.
refusal-yard-not-arrived = El patio de esta visita todavía no llegó: intercambie registros primero.
refusal-section-not-measured = { $section } no está medida. Sin su contorno no se puede mantener a nadie fuera de ella: mídala primero.
refusal-section-of-another-yard = Una sección por tratar no es de este patio: elija secciones de este patio.
refusal-nothing-measured = No hay ninguna sección medida que tratar: mida una primero.
refusal-not-started = El tratamiento no ha empezado en esta visita: empiece primero.
refusal-load-cannot-be = { $amount } no puede ser ({ $what }): ponga { $wanted } por encima de cero.
refusal-still-to-come = Esta hora todavía no llega: ponga cuándo se hizo.
refusal-finished-already = Esta visita ya está terminada: en su lugar, corrija el final, con un motivo.
# Lo que se cuenta, se lee y se dice en una visita.
refusal-text-unfit = Demasiado largo, o con un carácter que no se ve ({ $what }): dé { $bytes-most } bytes de texto simple como máximo.
refusal-reason-missing = Dé un motivo: queda en el registro.
refusal-series-empty = Dé al menos una { $what }.
refusal-series-too-long = Como máximo { $most } { $what }s a la vez: deje algunas para otra.
refusal-wind-cannot-be = Un viento de { $reading } no puede ser: ponga lo que mostró el medidor, desde calma hasta { $metres-per-second-most } m/s.
refusal-wind-direction = Dirección del viento: ponga de 0 a 360 grados desde el norte.
refusal-treating-has-started = El tratamiento ya empezó en esta visita: termínelo, y corrija lo que estuvo mal.
refusal-not-treated-note-missing = Diga en la nota por qué no se trató nada.
refusal-not-a-day = «{ $typed }» no es un día: escríbalo como 2026-06-30.
