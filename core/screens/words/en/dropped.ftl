# Why a fix of a walk was not used. Names after `dropped-` are those of the core's `WhyDropped`.
dropped-no-position = The receiver had no position.
dropped-poor-accuracy = Accuracy { $accuracy-mm } mm, worse than 20 m.
dropped-too-fast = A jump faster than 7 m/s.
dropped-standing-still = Taken while standing still.
dropped-small-loop = In a loop shorter than 10 m.
dropped-back-at-start = Back at the first fix.
