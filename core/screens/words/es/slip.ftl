# Qué está mal en un código de recuperación escrito. Los nombres tras `slip-` son los de `CodeFault` en el núcleo.
slip-length = El código de recuperación tiene { $characters } caracteres en lugar de 65: compárelo grupo por grupo con lo impreso.
slip-character = «{ $character }» no aparece en un código de recuperación: compárelo con lo impreso.
slip-group = El código de recuperación tiene un error: compare el grupo { $group } con lo impreso.
