# La temporada inventada.
season-making = Preparando la temporada inventada
season-made = Listo: una cuadrilla inventada, cinco patios, diez semanas. Pruebe lo que quiera; aquí ningún registro cuenta.
