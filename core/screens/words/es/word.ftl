# Palabras del núcleo que van dentro de sus frases. Los nombres tras `word-` son los del núcleo.
# Campos de una hoja de etiqueta.
word-wind-most = límite de viento
word-rain-free = tiempo sin lluvia
word-temperature-least = temperatura más baja
word-temperature-most = temperatura más alta
# Lo que un pronóstico dice de la lluvia.
word-chance = probabilidad de lluvia
word-amount = cantidad de lluvia
# El recorrido del patio.
word-toys = Juguetes
word-bowls = Platos
word-laundry = Ropa tendida
word-windows = Ventanas
word-pond_or_hive = Estanque o colmena
word-irrigation = Riego
word-gates = Portones
word-puddles = Charcos
word-hard_surfaces = Superficies duras
word-drains = Desagües y aguas abiertas
word-people_and_pets = Personas y mascotas
# Suelo y flores.
word-fit = apto
word-dust_dry = seco como polvo
word-soaked = empapado
word-frozen = helado
word-none = ninguna
word-beside = junto al césped
word-on_lawn = en el césped
# Quién publicó un límite aconsejado. Los títulos quedan como se publicaron.
word-practice = práctica común, sin fuente
word-victoria = Victoria, Australia: Department of Health y Agriculture Victoria, guías de viento
word-inversion = Canola Council of Canada; GRDC Spray Application Manual, módulo 10
word-delta-t = Sprayers 101, Delta T; bulbo húmedo según Stull 2011
word-rain = consejo: 0.01 pulg (0.25 mm) es la mínima lluvia medible del Servicio Meteorológico Nacional de EE. UU.; las probabilidades son práctica común, sin fuente
word-bees = NC State University, prácticas para polinizadores en césped
word-epa = texto de la EPA de EE. UU. para etiquetas de piretroides de exterior
word-spreader-calibration = UMass Extension, Rotary Spreader Calibration Procedures: dentro del 5 %
