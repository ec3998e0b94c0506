# Dónde no coinciden dos lecturas de una etiqueta. Los nombres tras `fault-` son los de `ReadBackFault` en el núcleo.
fault-left-out = { $field }: no se releyó.
fault-differs = { $field }: la hoja de etiqueta dice { $sheet }; la segunda lectura, { $second }.
fault-empty-on-sheet = { $field }: en la hoja de etiqueta está vacío.
