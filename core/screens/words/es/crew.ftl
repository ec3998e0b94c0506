# Cuadrilla: miembros, intercambio, preguntas, hora.
crew-title = Cuadrilla
crew-practice = Una cuadrilla de práctica: cada registro lleva esa marca.
crew-digits = Los dígitos de la cuadrilla: { $digits }
crew-none-yet = Este aparato no es de ninguna cuadrilla todavía. Registra de todos modos.
crew-to-swap = Intercambiar registros
crew-to-settle = { $n ->
    [one] { $n } pregunta por resolver
   *[other] { $n } preguntas por resolver
}
crew-members = Quién está con nosotros
crew-to-admit = Invitar y admitir
crew-to-recover = Usar el código de recuperación
crew-to-time = La hora de este aparato
crew-pending-title = Esperando ser admitido
crew-pending-how = Entregue esta solicitud a un jefe de cuadrilla. Hasta entonces sus registros cuentan como pendientes; ninguno se pierde.
crew-pending-digits = Al admitirlo, los dos leen en voz alta estos dígitos. Deben ser iguales.
crew-pending-then = Después reciba el archivo que hizo el jefe de cuadrilla
crew-request-download = Obtener el archivo de solicitud
crew-waiting = Esperando entradas
crew-waiting-line = { $who }: { $n ->
    [one] { $n } entrada queda en el aire
   *[other] { $n } entradas quedan en el aire
}
crew-waiting-help = Lo que va antes no ha llegado todavía: intercambie registros con ese teléfono, o con uno que lo tenga.
crew-not-told = no se dijo quién
crew-this-device = este aparato
crew-state-pending = espera ser admitido
crew-state-member = en la cuadrilla
crew-state-retired = retirado
crew-role-applicator = aplicador
crew-role-lead = jefe de cuadrilla
crew-role-office = oficina (solo lee)
crew-licence = Licencia
crew-device = Aparato
crew-was-another = Antes escribió con otras claves. Retírelas si ese aparato ya no está.
crew-lead-only = Solo un jefe de cuadrilla puede cambiar miembros.
crew-role-title = Otra función
crew-role = Función
crew-role-give = Dar esta función
crew-retire-title = Retirar este aparato
crew-retire-help = Para un teléfono perdido, vendido o que ya no se usa. Lo que escribió hasta ahora cuenta; lo que llegue después se guarda, marcado, y decide un jefe de cuadrilla.
crew-retire-sure = Sí, para siempre
crew-retire = Retirarlo
crew-why = Razón
crew-why-help = Queda en el registro.
crew-recover-title = Código de recuperación
crew-recover-how = Para cuando se perdieron todos los teléfonos de los jefes. Convierte este aparato en jefe de cuadrilla.
crew-recover-code = El código del papel
crew-recover-code-help = Mayúsculas o minúsculas, con o sin guiones.
crew-recover = Hacer jefe a este aparato
crew-admit-title = Invitar y admitir
crew-admit-how = El otro teléfono hace una solicitud («Unirme a una cuadrilla») y le entrega el archivo por cualquier medio. Por sí solo no abre nada.
crew-admit-none = Nadie espera.
crew-admit-compare = Lea estos dígitos en voz alta. El otro teléfono debe mostrar los mismos.
crew-admit-role = ¿Como qué?
crew-admit-same = Los dígitos son iguales
crew-admit = Admitir
crew-admit-file-title = Llegó una solicitud como archivo
crew-admit-file = Archivo de solicitud
crew-admit-read = Leerlo
crew-admit-then = Hacer el archivo que los deja entrar
crew-swap-title = Intercambiar registros
crew-swap-how = Un teléfono hace un archivo cerrado y el otro lo recibe, y al revés. Envíelo por cable, tarjeta o mensaje: solo los teléfonos de la cuadrilla pueden abrirlo.
crew-swap-give = Dar
crew-swap-alone = { $n ->
    [0] Todo lo de aquí está también en otro teléfono.
    [one] { $n } entrada no consta en ningún otro teléfono.
   *[other] { $n } entradas no constan en ningún otro teléfono.
}
crew-swap-nobody = No hay nadie más en la cuadrilla todavía: el archivo no se abriría para nadie.
crew-swap-make = Hacer un archivo cerrado
crew-swap-take-title = Recibir
crew-swap-file = Archivo cerrado
crew-swap-file-help = Recibir el mismo archivo dos veces no cambia nada.
crew-swap-take = Recibirlo
crew-swap-when = Cuándo fue la última vez, con quién
crew-swap-never = Nunca, que sepa este teléfono.
crew-swapped = { $who }, { $ago }
crew-swap-done = A la cuadrilla
crew-taking = Recibiendo un archivo cerrado
crew-took = De { $who }: { $new ->
    [one] { $new } entrada nueva
   *[other] { $new } entradas nuevas
}, { $known } ya estaban aquí.
crew-took-from-outsider = Ese teléfono no es, o ya no es, de la cuadrilla: lo que escribió se guarda con una marca.
crew-took-joined = Este teléfono ya es de la cuadrilla.
crew-took-clock = El reloj de ese teléfono va adelantado respecto a este: quedó anotado.
crew-took-unreadable = Una parte que no se puede leer
crew-took-began-anew = Las claves de este teléfono también se usaban en otro, así que ahora tiene nuevas. No se pierde nada: pida ser admitido otra vez.
crew-settle-title = Por resolver
crew-settle-how = Dos teléfonos registraron cosas distintas. Ambas quedan en el registro; diga cuál vale.
crew-settle-nothing = No hay nada por resolver.
crew-settle-back = A la cuadrilla
crew-settle-to-visit = A la visita
crew-settle-it = Esto vale
crew-by-at = { $who }, { $at }
crew-question-finish = Dos teléfonos terminaron este tratamiento. ¿Cuál vale?
crew-question-finish-which = Cuál de los dos
crew-question-see = Ver ambos en el registro
crew-question-late = Se registró una carga sin saber que ya estaba terminado. ¿Se aplicó?
crew-question-late-put-on = ¿Se aplicó?
crew-yes = Sí
crew-no = No
crew-question-outsider = { $who } escribió aquí y no es, o ya no es, de la cuadrilla. Sus vedas cuentan hasta que decida un jefe de cuadrilla.
crew-question-outsider-look = Ver el aparato
crew-question-outsider-lift = Ver las vedas
crew-question-treated = Un teléfono trató, otro registró que no se trató nada. Si se trató, retire lo otro.
crew-question-withdraw = Retirar «no se trató»
crew-question-one-job = Dos visitas a este patio en un día. ¿Es un solo trabajo, anotado dos veces?
crew-question-one-job-same = ¿Un solo trabajo?
crew-question-earlier = La primera
crew-question-later = La segunda
crew-question-field = Un campo se rellenó distinto en dos teléfonos.
crew-question-acted-on = Hasta entonces: { $value }
crew-question-field-which = ¿Cuál es correcto?
crew-time-title = La hora de este aparato
crew-time-unproven = Nada respalda este reloj desde que el aparato arrancó o el reloj saltó. Ninguna veda se da por terminada hasta que algo lo haga.
crew-time-person = Una persona confirmó este reloj, y ha seguido andando desde entonces.
crew-time-network = Una hora de red o de satélite confirmó este reloj, y ha seguido andando desde entonces.
crew-time-peer = El reloj comprobado de otro teléfono confirmó este.
crew-time-far-off = Pero otro teléfono vio este reloj muy desviado. Póngalo en hora primero.
crew-time-says = Este aparato dice:
crew-time-how = Compárelo con otro reloj de confianza: otro teléfono, la radio del auto, un reloj de pulsera.
crew-time-same = Está bien al minuto
crew-time-confirm = Confirmar
crew-time-wrong = ¿No está bien? Ponga primero en hora el aparato y vuelva.
