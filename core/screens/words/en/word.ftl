# Words of the core that stand inside its sentences. Names after `word-` are the core's own.
# Fields of a label sheet.
word-wind-most = wind limit
word-rain-free = rain-free time
word-temperature-least = lowest temperature
word-temperature-most = highest temperature
# What a forecast says of rain.
word-chance = chance of rain
word-amount = amount of rain
# The walk round the yard.
word-toys = Toys
word-bowls = Bowls
word-laundry = Laundry
word-windows = Windows
word-pond_or_hive = Pond or hive
word-irrigation = Irrigation
word-gates = Gates
word-puddles = Puddles
word-hard_surfaces = Hard surfaces
word-drains = Drains and open water
word-people_and_pets = People and pets
# Soil and blooms.
word-fit = fit
word-dust_dry = dust-dry
word-soaked = soaked
word-frozen = frozen
word-none = none
word-beside = beside the lawn
word-on_lawn = on the lawn
# Who published an advised limit. Titles stay as they were published.
word-practice = common practice, no source
word-victoria = Victoria, Australia: Department of Health and Agriculture Victoria, wind guides
word-inversion = Canola Council of Canada; GRDC Spray Application Manual, module 10
word-delta-t = Sprayers 101, Delta T; wet bulb by Stull 2011
word-rain = advice: 0.01 in (0.25 mm) is the least measurable rain of the US National Weather Service; the chances are common practice, no source
word-bees = NC State University, pollinator practices in turf
word-epa = US EPA outdoor pyrethroid label wording
word-spreader-calibration = UMass Extension, Rotary Spreader Calibration Procedures: within 5 %
