# Qué puede salir mal entre teléfonos. Los nombres tras `crew-error-` son los de `CrewError` en el núcleo.
crew-error-other-file = Este archivo no es de este tipo: { $file }. Elija el archivo que compartió el otro teléfono.
crew-error-damaged = Este archivo se cortó o se alteró en el camino: { $file }. No se tomó nada de él: pídalo otra vez.
crew-error-another-crew = Este archivo cerrado es de otra cuadrilla. No se tomó nada de él: ábralo donde están los registros de esa cuadrilla.
crew-error-not-for-this-phone = Este archivo cerrado no se cerró para este teléfono: pida a un jefe de cuadrilla que admita este teléfono y después pida un archivo hecho luego de eso.
crew-error-does-not-admit = Este archivo cerrado no admite este teléfono en una cuadrilla: entregue su solicitud a un jefe de cuadrilla y reciba el archivo que haga después de admitirlo.
crew-error-no-crew = Este teléfono todavía no es de ninguna cuadrilla: empiece una, o pida entrar en una, primero.
crew-error-nobody-to-lock-for = No hay otro teléfono para el que cerrar un archivo: admita uno primero.
crew-error-too-many-members = Un archivo cerrado alcanza para { $phones } teléfonos como máximo: retire los que ya no se usan.
crew-error-not-written = No se pudo escribir el archivo cerrado ({ $detail }): haga lugar o elija otro sitio, y no comparta el archivo sin terminar.
crew-error-not-read = No se pudo leer el archivo ({ $detail }): cópielo otra vez a este dispositivo.
crew-error-bad-recipient = Lo que dio el otro teléfono no es una clave con la que se pueda cerrar un archivo: que ese teléfono pida entrar otra vez.
crew-error-bad-identity = La clave de este teléfono para archivos cerrados está dañada: mueva el archivo de la clave a otro sitio, y este teléfono pedirá entrar de nuevo.
crew-error-recovery-code = El código de recuperación tiene un error: compárelo grupo por grupo con lo impreso.
crew-error-recovery-of-another-crew = Este es el código de recuperación de otra cuadrilla: busque el que imprimió esta cuadrilla.
crew-error-peer-of-another-crew = El otro teléfono es de otra cuadrilla. No se intercambió nada: intercambie registros con un teléfono de esta cuadrilla.
crew-error-peer = El otro teléfono no cumplió las reglas del intercambio. { -sent-ended }
crew-error-ended = Este intercambio terminó: empiece otro.
