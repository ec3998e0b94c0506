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
note-wet-bulb-accuracy = Frente al bulbo húmedo de ASHRAE al nivel del mar difiere en promedio 0.34 °C de 1 a 50 °C: hasta 0.6 °C con no más de 35 °C y desde 15 % de humedad, hasta 1.2 °C con aire más caliente o más seco.
note-pests-in-patches = Las plagas están en manchas, así que la incertidumbre real es mayor que el intervalo.
note-one-sample = Una sola muestra: tome más, repartidas por el césped.
note-same-before = Supone que las dos partes tenían lo mismo antes. Si puede que no, cuente también antes de tratar y use la otra fórmula.
note-check-held-none = La parte sin tratar no tenía ninguna antes, así que la fórmula da 100 % quede lo que quede: elija otra parte sin tratar.
note-ask-extension = ¿No está seguro del conteo? Pregunte en su oficina de extensión.
note-threshold-of = Umbral para { $life-stage } en { $region }: { $publisher }.
note-counted-together = El umbral cuenta juntos los gusanos soldados y los cortadores: pocos de uno no dicen que haya pocos de ambos.
note-sources-differ = Las fuentes difieren para esta plaga: elija la de su región.
note-coordinates-rounded = Las coordenadas están redondeadas a { $decimals } decimales de grado; eso también cuenta como incertidumbre.
note-outer-edge-only = Solo el borde exterior: lo exceptuado adentro tiene sus propios bordes.
note-between-radii = Cómo va el borde entre dos radios no se mide: con más radios es más seguro.
note-base-line-is-edge = La línea de base se toma por un borde recto del césped.
note-walk-smoothed = Las oscilaciones de menos de { $metres } m se alisan para el largo del borde (práctica común, sin fuente); lo que agregan al recorrido cuenta como incertidumbre.
note-edge-errors = Incertidumbre por la precisión de las posiciones, cada una por su cuenta. Esos errores alargan un borde y en conjunto nunca lo acortan; más o menos cuánto cuenta como incertidumbre.
note-left-out-beyond-strip = Se supone que lo exceptuado está más allá de la franja, para que no se planee más de lo que queda.
note-strip-cut-square = La franja se toma por recta, cortada a escuadra en sus extremos y dentro del césped.
note-slope-even = Se supone que todo el césped tiene la misma pendiente.
note-slope-errors = Incertidumbre por un error de { $degrees } grados en la pendiente (práctica común, sin fuente).
note-label-silent-on-slope = Si la etiqueta no dice qué área quiere decir, se toma el área a nivel, como en un mapa: da la dosis menor (práctica común, sin fuente).
note-slope-run-off = En una pendiente el rociado y el agua escurren antes: deténgase antes de que escurran. Deciden la etiqueta y, cerca del agua, la ley (práctica común, sin fuente).
note-try-setting-again = Un cálculo a partir de dos ajustes probados, no un ajuste: póngalo y pruébelo otra vez.
note-beyond-settings-tried = La dosis deseada queda fuera de las probadas, así que el cálculo es menos seguro.
note-each-pass-by-itself = Si va en dos pasadas, las dos juntas deben dar la dosis.
note-sample-deviation = Desviación estándar con n − 1, sobre las cajas entre dos líneas.
note-farm-evenness = El 15 % es una cifra para fertilizante agrícola (EN 13739, según la resume una nota de buenas prácticas); para céspedes no hay ninguna.
note-worse-overlap = De ida y vuelta, la derecha cae sobre la derecha y la izquierda sobre la izquierda: cuenta lo peor de las dos.
note-boxes-end-too-soon = Las cajas de los extremos todavía recogieron buena parte, así que el patrón llega más allá: ponga más cajas y esparza otra vez.
note-same-pressure-each = Recoja de cada boquilla el mismo tiempo, a la presión con que se rocía.
note-steady-flow = Si el flujo es constante, ir a la mitad de la velocidad es el doble de la dosis (práctica común, sin fuente).
note-setting-or-pace = Cambie el ajuste o el paso, no los dos; luego revise otra vez.
note-drops-change-too = Vale para una boquilla; con la presión cambia además el tamaño de sus gotas.
note-tried-with-water = Probado con agua: una mezcla más densa o más espesa fluye de otra manera.
note-check-current-rule = Las leyes se leyeron en copias guardadas: revise la norma vigente de su estado.
note-sign-as-long-as-keep-off = Diga lo que diga la norma, deje el letrero mientras alguien tenga que quedarse fuera.
note-some-products-exempt = Algunos productos están exentos. Cuáles, solo lo dice la norma misma.
note-kept-from-memory = Cuánto tiempo se guarda es de memoria, no leído: confírmelo.
note-flat-horizon = Para un horizonte plano al nivel del mar: tras cerros, árboles y casas el sol se va antes.
note-inversion-any-hour = El aire puede no mezclarse también a otras horas: observe humo, polvo, rocío y niebla.
note-profile-raises-only = Un cálculo aproximado, y más entre casas y árboles: puede subir un viento, y nunca lo baja.
note-spare-rounded-down = Lo que queda y lo que cubre se redondean hacia abajo.
note-repeat-holds-there-too = El tiempo mínimo entre dos tratamientos de la etiqueta vale también para un sobrante.
note-leftover-else = Si no, según la etiqueta y las reglas locales: nunca a un desagüe, a la calle ni al suelo desnudo.
note-dial-in-finished-mix = La proporción del selector se toma como producto en un galón de lo que sale, agua y producto juntos.
note-label-order-of-mixing = La etiqueta dice en qué orden llenar y mezclar.
note-half-swath-is-more-even = Las líneas a medio ancho de pasada salen más parejas que dos pasadas en ángulo recto (Ohio State University, Bulletin 817).
note-driest-quarter = Según la media, cerca de la mitad del césped recibe menos que la lámina; según el cuarto más seco, poco de él.
note-soak-until-gone = Entre dos riegos espere hasta que no quede agua encima ni corra (práctica común, sin fuente).
note-run-off-cut = El tiempo hasta el escurrimiento se corta a minutos enteros, para que ningún riego llegue a él.
note-same-ground = Se supone que todos los tratamientos cayeron en el mismo suelo.
note-day-carried-over = En un mes sin ese día cuenta hasta el primer día del siguiente.
note-whole-days = Las partes de un día cuentan como un día entero.
note-oldest-first = Primero los lotes abiertos, luego por la fecha impresa, luego por la de compra; los lotes sin fecha al final.
note-most-holds-for-spots = Una dosis por punto es solo para puntos: el máximo de la etiqueta para el área sigue valiendo.
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
