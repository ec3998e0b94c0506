//! What to type into each field of a sheet.

/// A field's meaning with an example; none for a field that this program has no words for.
pub(crate) fn field_hint(key: &str) -> &'static str {
    match key {
        "product" => "the product's name as printed",
        "registration" => "the registration number as printed",
        "method" => "how it goes on: granule, foliar_spray, drench or bait",
        "rate_least" => {
            "the least product per area, only where the label gives a range, like 2 lb/1000 ft2; else nothing"
        }
        "rate_most" => "the most product per area, or the label's one rate, like 2.5 lb/1000 ft2",
        "carrier_least" => "the least water per area for liquids, like 2 gal/1000 ft2, or nothing",
        "wind_most" => "the highest wind, like 10 mph, or nothing",
        "rain_free" => "how long it must stay dry after treating, like 24 h, or nothing",
        "temperature_least" => "the lowest air temperature, like 50 F, or nothing",
        "temperature_most" => "the highest air temperature, like 85 F, or nothing",
        "keep_off_until_dry" => "whether people and pets stay off until dry: yes, no or nothing",
        "keep_off_wait" => "how long people and pets stay off, like 24 h, or nothing",
        "watering_in" => "\"required 0.5 in\", \"withheld 24 h\", or nothing",
        "repeat_after" => "the shortest time between two treatments, like 30 days, or nothing",
        "name" => "what people call it",
        "address" => "the postal address",
        "state" => "the state, like NY or New York",
        "zone" => "the time zone, like America/New_York",
        "people" => "who lives there: people, children, pets",
        "note" => "anything else",
        _ => "as on the label",
    }
}
