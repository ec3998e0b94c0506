# Revisión.
recheck-title = ¿Funcionó?
recheck-none-planned = No hay ningún regreso planeado.
recheck-counts = Contado en esta visita
recheck-no-counts = No se contó nada.
recheck-count = { $pest }: { $total } en { $samples ->
    [one] { $samples } muestra
   *[other] { $samples } muestras
}, { $at }
recheck-count-more = Contar ahora
recheck-control-title = Porcentaje de control
recheck-control-help = Recuentos de los vivos, tomados del mismo modo: en el césped tratado y en una parte sin tratar, antes de tratar y ahora.
recheck-treated-before = Tratado, antes
recheck-treated-after = Tratado, ahora
recheck-check-before = Sin tratar, antes
recheck-check-after = Sin tratar, ahora
recheck-work-out = Calcularlo
recheck-control = Control del { $percent } % (Henderson–Tilton)
recheck-abbott = Solo por lo que vive ahora: { $percent } % (Abbott)
recheck-interval = entre { $least } y { $most } % (95 %)
recheck-may-be-none = Se contaron tan pocos que puede no haber hecho nada.
recheck-no-interval = Intervalo: los conteos no dan ninguno.
recheck-advice = Pocos contados dan una respuesta floja. Antes de tratar otra vez, mire si la plaga sigue en una etapa alcanzable y si la etiqueta permite repetir.
recheck-plan-title = Planear un regreso
recheck-day = Día
recheck-what = Para qué
recheck-what-re-check = ¿Funcionó?
recheck-what-look = Mirar otra vez
recheck-what-repeat = La próxima aplicación
recheck-what-other = Otra cosa (dígalo abajo)
recheck-note = Nota
recheck-plan = Planearlo
recheck-new-visit = Nueva visita a este patio
recheck-to-record = Al registro
