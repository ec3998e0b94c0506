# Por qué tratar puede valer la pena o no. Los nombres tras `because-` son los de `Because` en el núcleo.
because-no-sample = No se tomó ninguna muestra: tome algunas primero.
because-no-density = Los conteos no dan densidad: cuente otra vez.
because-no-threshold = No se conoce umbral para esta plaga: pregunte en su oficina de extensión.
because-above = { $mean-per-ft2 } por pie² ({ $lower-per-ft2 } a { $upper-per-ft2 }) pasa del umbral de { $least-per-ft2 } a { $most-per-ft2 } por pie².
because-below = { $mean-per-ft2 } por pie² ({ $lower-per-ft2 } a { $upper-per-ft2 }) queda por debajo del umbral de { $least-per-ft2 } a { $most-per-ft2 } por pie².
because-neither = { $mean-per-ft2 } por pie² ({ $lower-per-ft2 } a { $upper-per-ft2 }) no está con seguridad por encima ni por debajo del umbral de { $least-per-ft2 } a { $most-per-ft2 } por pie²: tome más muestras, o mire otra vez en una o dos semanas.
