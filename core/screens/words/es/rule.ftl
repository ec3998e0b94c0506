# Lo que las normas piden de un registro. Nombres y fuentes de las normas quedan como se publicaron.
rule-title = Lo que piden las normas
rule-check-yours = Lo que registró la cuadrilla. Lo que un registro debe contener depende del estado, del producto y de la licencia: revise la norma vigente de su estado.
rule-not-all = Estas son las normas que se leyeron para este programa. Hay más, y ninguna reemplaza a otra.
rule-summary = { $filled } de { $all } con algo, { $look } por buscar en el texto, { $missing } en blanco
rule-filled = ahí hay algo
rule-look-in-text = mire si el texto lo dice
rule-missing = en blanco
rule-not-applicable = no se pide aquí
rule-fill = Completarlo
rule-keep = Cuánto tiempo se guarda un registro
rule-years = { $n ->
    [one] { $n } año
   *[other] { $n } años
}
rule-from-memory = { $said }, de memoria, no leído: confírmelo
rule-write-within = Se escribe dentro de
rule-days = { $n ->
    [one] { $n } día
   *[other] { $n } días
}
rule-check-current = «Ahí hay algo» no dice que sea correcto ni que baste. Revise la norma vigente.
rule-about-usda-7-cfr-110-3 = Solo productos de uso restringido: nunca una medida para trabajo pagado bajo las normas de un estado.
rule-about-new-york-ecl-33-1205 = Aplicaciones en Nueva York.
rule-about-minnesota-stat-18b-37 = Aplicaciones comerciales en Minnesota; el cliente recibe una copia.
rule-about-texas-4-tac-chapter-7 = Registros generales en Texas. Los de servicios estructurales están en otra sección; cuál rige un césped le toca a usted confirmarlo.
rule-about-georgia-40-21-5 = Aplicaciones comerciales en Georgia.
rule-about-pennsylvania-7-pa-code-128-35 = Aplicaciones en Pensilvania; la hora de término donde rige un tiempo de reingreso.
# Los nombres tras `rule-field-` son los del programa.
rule-field-product = Producto
rule-field-registration-number = Número de registro
rule-field-total-product = Producto en total, sin diluir
rule-field-total-mix = Producto y agua en total
rule-field-rate = Dosis
rule-field-method = Cómo se aplicó
rule-field-equipment = Equipo
rule-field-target = Plaga
rule-field-date = Fecha
rule-field-start-time = Hora en que empezó
rule-field-finish-time = Hora en que terminó
rule-field-location = Lugar
rule-field-address-with-zip = Dirección con código postal
rule-field-site = Lo que se trató
rule-field-area = Tamaño de lo tratado
rule-field-temperature = Temperatura del aire
rule-field-wind-speed = Velocidad del viento
rule-field-wind-direction = Dirección del viento
rule-field-customer = Cliente
rule-field-company = Empresa
rule-field-applicator = Aplicador
rule-field-licence-number = Número de licencia
rule-field-unexpected-occurrence = Cualquier cosa inesperada
rule-field-disposal = Adónde fueron el producto sobrante y los envases
rule-may-govern = Estas pueden regir aquí
rule-state-not-read = El estado del patio no está puesto, o no se leyó una norma suya sobre registros. Puede que la haya.
rule-set-state = Decir en qué estado está el patio
rule-confirm = Cuál norma rige le toca a usted confirmarlo.
rule-others = Normas de otros estados
