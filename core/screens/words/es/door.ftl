# La puerta: quién puede mirar.
door-shut = Esta puerta está cerrada
door-go-in = Entrar
door-host = Esta no es la dirección que sirve Swardbook. Abra la dirección que mostró el programa.
door-origin = Esto lo envió otra página. No se hizo nada. Abra la dirección que mostró el programa.
door-token = Este navegador no fue admitido por este arranque del programa. Abra la dirección que mostró el programa.
