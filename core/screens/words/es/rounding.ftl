# Cómo se redondeó un número. Los nombres tras `rounding-` son los de `Rounding` en el núcleo.
rounding-whole-steps = A pasos enteros, nunca por encima del máximo de la etiqueta.
rounding-whole-steps-by = A pasos enteros, nunca por encima del máximo de la etiqueta: { $change } %.
rounding-significant-digits = A { $digits } cifras significativas, para mostrar.
rounding-towards-less = A los decimales de los ajustes probados, hacia menos producto.
