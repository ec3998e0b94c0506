# Por qué no se usó una posición de un recorrido. Los nombres tras `dropped-` son los de `WhyDropped` en el núcleo.
dropped-no-position = El receptor no tenía posición.
dropped-poor-accuracy = Precisión de { $accuracy-mm } mm, peor que 20 m.
dropped-too-fast = Un salto más rápido que 7 m/s.
dropped-standing-still = Tomada estando parado.
dropped-small-loop = En una vuelta de menos de 10 m.
dropped-back-at-start = De vuelta en la primera posición.
