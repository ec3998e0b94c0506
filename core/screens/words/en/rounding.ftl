# How a number was rounded. Names after `rounding-` are those of the core's `Rounding`.
rounding-whole-steps = To whole steps, never above the label's most.
rounding-whole-steps-by = To whole steps, never above the label's most: { $change } %.
rounding-significant-digits = To { $digits } significant digits, for showing.
rounding-towards-less = To the decimals of the settings tried, towards less product.
