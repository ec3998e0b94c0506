# Herramientas: ¿con qué trabajo?
things-title = ¿Con qué trabajo?
things-count-labels = { $n ->
    [0] ninguna todavía
    [one] { $n } hoja de etiqueta
   *[other] { $n } hojas de etiqueta
}
things-count-unread = { $n ->
    [one] { $n } de ellas no se ha releído: todavía no se debe usar
   *[other] { $n } de ellas no se han releído: todavía no se deben usar
}
things-count-equipment = { $n ->
    [0] ninguno todavía
    [one] { $n } esparcidor o pulverizador
   *[other] { $n } esparcidores y pulverizadores
}
things-count-lots = { $n ->
    [0] ninguno todavía
    [one] { $n } lote
   *[other] { $n } lotes
}
things-count-short = { $n ->
    [one] { $n } lote estaba escaso en su último conteo
   *[other] { $n } lotes estaban escasos en su último conteo
}
things-count-people = { $n ->
    [0] nadie todavía
    [one] { $n } persona
   *[other] { $n } personas
}
things-help-lines = A quién llamar
things-tank-fills = Mezclas de tanque que sirven para varios patios
things-not-kept = no se sabe: esta versión todavía no lo guarda
things-in-doubt = dos teléfonos no coinciden, vea arriba
things-two-values = Dos teléfonos no coinciden: { $field }
things-none-used = No se usa ninguno hasta que una persona diga cuál vale.
things-used-now = en uso ahora, el más seguro o el que se muestra
things-this-holds = Vale este
things-save = Guardar
things-put-away = Apartado: ya no se ofrece.
things-away = Apartados
things-to-crew = Ir a la cuadrilla
things-equipment = Equipo
things-equipment-none = Todavía no hay equipo: añada el esparcidor o pulverizador que más usa.
things-equipment-add = Añadir equipo
things-equipment-new = Equipo nuevo
things-equipment-retire = Retirar del uso
things-equipment-back = Volver a usar
things-calibration = Calibración
things-more = Más
things-calibrated = Calibrado
things-calibrated-with = con
things-calibration-void = Otra rueda, boquilla, persona o producto, otro paso o ajuste: vuelva a calibrar. Práctica común, sin fuente.
things-stock = Existencias
things-stock-none = No hay ningún lote disponible, que sepa este libro.
things-stock-no-label = Un lote es de un producto: copie primero su etiqueta.
things-stock-add = Añadir un lote
things-stock-new = Lote nuevo
things-stock-as-counted = Según el último conteo: no se resta lo que usaron las visitas desde entonces.
things-stock-short = Escaso en el último conteo
things-stock-used-up = Se acabó o se regaló
things-stock-back = Vuelve a estar disponible
things-people = Personas y licencias
things-people-none = Todavía no hay nadie: añádase usted con su licencia.
things-people-add = Añadir una persona
things-people-new = Persona nueva
things-people-left = Ya no está con nosotros
things-people-back = Está otra vez con nosotros
things-people-devices = Quién lleva cada aparato, y qué puede hacer, está en cuadrilla.
things-licence-over = vencida
things-settings = Ajustes
things-language = Idioma
things-language-own = Español
things-units = Unidades
things-units-us = de EE. UU.: pies, libras, galones, mi/h
things-units-metric = métricas: metros, kilogramos, litros, km/h
things-units-note = Para los campos vacíos y para lo calculado. Lo escrito conserva su propia unidad.
things-light = Luz
things-light-day = día: negro sobre blanco, para el sol
things-light-night = noche: blanco sobre negro
things-light-device = como esté ajustado este aparato
things-device = Este aparato
things-device-crew = Cuadrilla
things-device-person = Lo lleva
things-device-role = Función
things-role-office = oficina
things-role-applicator = aplicador
things-role-lead = jefe de cuadrilla
things-role-none = ahora no es miembro
things-device-kind = Tipo de libro
things-device-practice = práctica: cada registro lo lleva marcado
things-device-real = registros de tratamientos reales
things-device-zone = Zona horaria de este aparato
things-device-entries = Entradas en el libro
things-device-name = Nombre en los registros
things-device-folder = Carpeta del libro
things-backup = Copia de seguridad y comprobación
things-backup-file = Un archivo de copia de seguridad
things-backup-holds = El libro entero: patios, visitas, hojas de etiqueta, registros, historial.
things-backup-no-keys = Las claves de este aparato no están en ella: quien la restaure recibe claves nuevas y pide a la cuadrilla que lo admita otra vez.
things-backup-readable = No está cerrada: quien tenga el archivo puede leer todas las direcciones que contiene. Guárdela donde guardaría los registros en papel, y no solo en este aparato.
things-backup-make = Hacer una copia de seguridad y guardarla
things-backup-restore = Se restaura en la terminal, en una carpeta vacía, con: sward restore
things-proof = Comprobar que el libro está íntegro
things-proof-what = Se revisa de nuevo cada entrada, firma y cadena, y todo lo que se muestra se hace de nuevo al lado y se compara. Puede tardar minutos; usted puede seguir trabajando.
things-proof-begin = Comprobarlo ahora
things-proof-running = Se comprueba que el libro está íntegro
things-proof-failed = La comprobación no se pudo terminar.
things-proof-whole = El libro está íntegro: nada en él es distinto de como debe ser.
things-proof-faults = { $n ->
    [one] El libro no está íntegro: { $n } cosa no es como debe ser.
   *[other] El libro no está íntegro: { $n } cosas no son como deben ser.
}
things-proof-what-now = No lo borre. Guarde una copia de su carpeta, después restaure una copia de seguridad en una carpeta nueva e intercambie registros con la cuadrilla. Lo encontrado, en inglés:
things-proof-entries = Entradas revisadas: { $n }
things-proof-sheets = Hojas como deben ser: { $n }
things-proof-views = Filas mostradas como deben ser: { $n }
things-proof-waiting = { $n ->
    [one] { $n } entrada espera otra anterior que no está aquí: intercambie registros con la cuadrilla.
   *[other] { $n } entradas esperan otras anteriores que no están aquí: intercambie registros con la cuadrilla.
}
things-proof-forked = { $n ->
    [one] { $n } aparato escribió en dos ramas: fue copiado o restaurado con sus claves. Avise al jefe de cuadrilla.
   *[other] { $n } aparatos escribieron en dos ramas: fueron copiados o restaurados con sus claves. Avise al jefe de cuadrilla.
}
