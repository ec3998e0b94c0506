# Qué le pasa a un campo. Los nombres tras `wrong-` son los de `Wrong` en el programa.
wrong-missing = Rellene este campo.
wrong-not-offered = Elija una de estas opciones.
wrong-not-a-number = Escriba un número sencillo, como 12 o 2.5.
wrong-not-a-day = Escriba un día como 2026-06-30.
wrong-not-a-time = Escriba una hora como 14:30.
wrong-clock-change = A esa hora cambia el reloj: escriba una hora anterior o posterior.
wrong-most = Como máximo { $most }.
wrong-least = Como mínimo { $least }.
wrong-no-file = Elija un archivo.
wrong-not-a-fix = La línea { $line } no es una posición: haga el recorrido otra vez o elija un archivo GPX.
wrong-not-a-corner = La línea { $line } no es una esquina: escriba centímetros al este y al norte, como 250,-120, o dibújela otra vez.
wrong-changed-meanwhile = Esto cambió mientras tanto: mire lo que hay ahora y hágalo otra vez.
wrong-no-unit = Elija la unidad que está junto al número.
wrong-both-said = Dos respuestas que no van juntas: deje vacía una de ellas.
