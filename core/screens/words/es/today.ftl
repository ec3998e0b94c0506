# Hoy.
today-title = Hoy
today-no-yard = Todavía no hay ningún patio. Añada el primero: con el nombre basta para empezar.
today-first-yard = Añadir un patio
