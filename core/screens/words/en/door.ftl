# The door: who may look.
door-shut = This door is shut
door-go-in = Go in
door-host = This address is not the one that Swardbook serves. Open the address that the program printed.
door-origin = Another page sent this. Nothing was done. Open the address that the program printed.
door-token = This browser was not let in by this start of the program. Open the address that the program printed.
