# Trabajo largo.
jobs-can-be-left = Puede dejar esta pantalla; el trabajo sigue.
jobs-look-again = Mirar otra vez
jobs-go-on = Seguir
