# Lo que se debe tener en cuenta junto a un número. Los nombres tras `note-` son los de `Note` en el núcleo.
note-tape-errors = Incertidumbre por un error de lectura del 1 % de cada cinta, al menos 0.1 pie (práctica común, sin fuente).
note-between-offsets = Cómo va el borde entre dos anchos no se mide: con más anchos es más seguro.
note-less-round = Cuanto menos redonda la forma, más por debajo de su área queda esto.
note-left-out-inside = Se supone que lo exceptuado está dentro del césped y no se superpone.
note-fix-errors = Incertidumbre por la precisión de las posiciones, cada una por su cuenta, a primer orden. Un desplazamiento común a todas no cambia el área, y los errores que comparten las vecinas no se cuentan.
note-accuracy-assumed = { $fixes ->
    [one] { $fixes } posición no tiene precisión; se supone { $metres } m (práctica común, sin fuente).
   *[other] { $fixes } posiciones no tienen precisión; se supone { $metres } m (práctica común, sin fuente).
}
note-drawn-by-hand = Dibujada a mano en el croquis: mida con cinta o caminando antes de tratar.
note-drawn-errors = Incertidumbre por un error de { $metres } m (media cuadrática) de cada esquina por su cuenta (práctica común, sin fuente).
note-routes-not-used = El archivo trae además rutas; solo se usa su trazado.
note-waypoints-not-used = { $count ->
    [one] { $count } punto suelto del archivo no se usa.
   *[other] { $count } puntos sueltos del archivo no se usan.
}
note-accuracy-by-hdop = La precisión se toma como HDOP por { $metres } m, una suposición: GPX no da metros.
note-no-hdop = { $fixes ->
    [one] { $fixes } posición no da HDOP; se supone { $metres } m para ella.
   *[other] { $fixes } posiciones no dan HDOP; se supone { $metres } m para ellas.
}
note-no-times = { $fixes ->
    [one] { $fixes } posición no tiene hora; no se pueden ver saltos junto a ella.
   *[other] { $fixes } posiciones no tienen hora; no se pueden ver saltos junto a ellas.
}
note-finished-mix = La mezcla lista: llene con agua hasta aquí, con el producto incluido.
note-area-less-uncertainty = Planeado para el área menos una desviación estándar.
note-each-load-rounded = El producto de cada carga se redondea por separado: va en su propia parte del césped.
note-swath-of-calibration = El ajuste de un esparcidor vale para el ancho de trabajo con que se calibró: con otra distancia entre líneas cambia la dosis.
note-no-density = Peso y volumen no se pueden comparar sin la densidad del producto.
note-rest-at-planned-rate = La parte que falta recibe la dosis del plan; nunca compensa la parte hecha.
note-wet-bulb-accuracy = Con un margen de unos 0.3 °C frente a un psicrómetro, al nivel del mar.
note-pests-in-patches = Las plagas están en manchas, así que la incertidumbre real es mayor que el intervalo.
note-one-sample = Una sola muestra: tome más, repartidas por el césped.
note-same-before = Supone que las dos partes tenían lo mismo antes. Si puede que no, cuente también antes de tratar y use la otra fórmula.
note-check-held-none = La parte sin tratar no tenía ninguna antes, así que la fórmula da 100 % quede lo que quede: elija otra parte sin tratar.
note-ask-extension = ¿No está seguro del conteo? Pregunte en su oficina de extensión.
note-threshold-of = Umbral para { $life-stage } en { $region }: { $publisher }.
note-sources-differ = Las fuentes difieren para esta plaga: elija la de su región.
note-more-than-chance = Las muestras difieren más de lo que daría el azar: el intervalo se amplía por eso, y cuánto se apoya en { $samples } muestras.
note-if-they-hold-as-many = Un pronóstico: vale si más muestras, tomadas igual por todo el césped, tienen en promedio lo mismo y difieren lo mismo.
note-interval-by-log-ratio = Intervalo al 95 % por el método delta sobre el logaritmo del cociente; se supone que los conteos caen al azar.
note-interval-by-log-shares = Intervalo al 95 % por el método delta sobre el logaritmo del cociente de las dos proporciones vivas (Katz y otros 1978, Biometrics 34, 469).
note-half-added = Un conteo es 0, así que para el intervalo se suma un medio a cada conteo (Haldane y Anscombe).
note-shares-have-no-interval = Las proporciones no dicen cuántos se contaron, así que no hay intervalo: dé conteos.
note-days-missing = { $count ->
    [one] Falta { $count } día, así que la suma es lo que hay como mínimo.
   *[other] Faltan { $count } días, así que la suma es lo que hay como mínimo.
}
note-same-base-and-start = Compárela solo con una suma de la misma base, el mismo inicio y el mismo método.
