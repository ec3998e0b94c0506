# What is wrong with a typed recovery code. Names after `slip-` are those of the core's `CodeFault`.
slip-length = The recovery code has { $characters } characters instead of 65: compare it with the print group by group.
slip-character = “{ $character }” does not occur in a recovery code: compare it with the print.
slip-group = The recovery code has a slip: compare group { $group } with the print.
