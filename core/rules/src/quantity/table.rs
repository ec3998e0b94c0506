//! The closed table of units: UCUM code, a person's form and spellings, kind, exact factor to SI.
//!
//! Factors are exact by definition: the international foot and pound (1959), the US gallon of 231
//! cubic inches, the knot of 1852 m an hour, standard gravity for the pound of force.

use rust_decimal::Decimal;

use super::Dimension;

/// One row's key; its order is the order of [`TABLE`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[rustfmt::skip]
pub(super) enum Base {
    Metre, Centimetre, Millimetre, Kilometre, Inch, Foot, Yard, Mile,
    SquareMetre, SquareInch, SquareFoot, SquareYard, SquareFeet100, SquareFeet1000,
    SquareFeet5000, SquareFeet10000, SquareMetres100, Acre, Hectare,
    Kilogram, Gram, Milligram, Pound, Ounce,
    Litre, Millilitre, CubicMetre, Litres100,
    FluidOunce, Teaspoon, Tablespoon, Cup, Pint, Quart, Gallon, Gallons100,
    Second, Minute, Hour, Day, Week,
    Knot, Celsius, Fahrenheit, Kelvin, Psi, Bar, Kilopascal, Percent, Number,
}

/// Kinds that stand alone; those "per" something follow from two of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Alone(Dimension),
    /// A bare number, which has a kind only per area.
    Number,
}

pub(super) struct Row {
    pub(super) base: Base,
    pub(super) kind: Kind,
    pub(super) code: &'static str,
    pub(super) shown: &'static str,
    /// In lower case, without blanks and full stops; set apart by blanks.
    spellings: &'static str,
    /// The SI value is `(amount + shift) * times / by`.
    pub(super) times: Decimal,
    pub(super) by: Decimal,
    pub(super) shift: Decimal,
}

impl Row {
    pub(super) fn spellings(&self) -> impl Iterator<Item = &'static str> {
        self.spellings.split_ascii_whitespace()
    }
}

impl Base {
    pub(super) fn row(self) -> &'static Row {
        &TABLE[self as usize]
    }

    pub(super) fn by_code(code: &str) -> Option<Self> {
        TABLE.iter().find(|r| r.code == code).map(|r| r.base)
    }

    pub(super) fn by_spelling(text: &str) -> Option<Self> {
        TABLE
            .iter()
            .find(|r| r.spellings().any(|s| s == text))
            .map(|r| r.base)
    }
}

const ZERO: Decimal = dec(0, 0);
const ONE: Decimal = dec(1, 0);

/// `mantissa` with `scale` digits behind the point.
const fn dec(mantissa: u64, scale: u32) -> Decimal {
    let low = (mantissa & 0xffff_ffff) as u32;
    let high = (mantissa >> 32) as u32;
    Decimal::from_parts(low, high, 0, false, scale)
}

/// Code, form for a person, spellings; then the factor to SI.
type Names = (&'static str, &'static str, &'static str);

const fn row(base: Base, kind: Dimension, names: Names, times: Decimal) -> Row {
    let (code, shown, spellings) = names;
    Row {
        base,
        kind: Kind::Alone(kind),
        code,
        shown,
        spellings,
        times,
        by: ONE,
        shift: ZERO,
    }
}

#[rustfmt::skip]
pub(super) static TABLE: [Row; 50] = {
    use Base as B;
    use Dimension::{Area, Length, Mass, Percent, Pressure, Speed, Temperature, Time, Volume};
    [
        row(B::Metre, Length, ("m", "m", "meter meters metre metres"), ONE),
        row(B::Centimetre, Length, ("cm", "cm", ""), dec(1, 2)),
        row(B::Millimetre, Length, ("mm", "mm", ""), dec(1, 3)),
        row(B::Kilometre, Length, ("km", "km", ""), dec(1000, 0)),
        row(B::Inch, Length, ("[in_i]", "in", "in inch inches \""), dec(254, 4)),
        row(B::Foot, Length, ("[ft_i]", "ft", "ft foot feet '"), dec(3048, 4)),
        row(B::Yard, Length, ("[yd_i]", "yd", "yd yard yards"), dec(9144, 4)),
        row(B::Mile, Length, ("[mi_i]", "mi", "mi mile miles"), dec(1_609_344, 3)),
        row(B::SquareMetre, Area, ("m2", "m²", "m2 sqm squaremeters"), ONE),
        row(B::SquareInch, Area, ("[in_i]2", "in²", "in2 sqin squareinches"), dec(64516, 8)),
        row(B::SquareFoot, Area, ("[ft_i]2", "ft²", "ft2 sqft squarefoot squarefeet [sft_i]"), dec(9_290_304, 8)),
        row(B::SquareYard, Area, ("[yd_i]2", "yd²", "yd2 sqyd squareyard squareyards"), dec(83_612_736, 8)),
        row(B::SquareFeet100, Area, ("100.[ft_i]2", "100 ft²", "100ft2 100sqft 100squarefeet"), dec(9_290_304, 6)),
        row(B::SquareFeet1000, Area, ("1000.[ft_i]2", "1000 ft²",
            "1000ft2 1000sqft 1000squarefeet 1,000ft2 1,000sqft 1,000squarefeet"), dec(9_290_304, 5)),
        // What bags and bottles say they cover.
        row(B::SquareFeet5000, Area, ("5000.[ft_i]2", "5000 ft²",
            "5000ft2 5000sqft 5000squarefeet 5,000ft2 5,000sqft 5,000squarefeet"), dec(46_451_520, 5)),
        row(B::SquareFeet10000, Area, ("10000.[ft_i]2", "10000 ft²",
            "10000ft2 10000sqft 10000squarefeet 10,000ft2 10,000sqft 10,000squarefeet"), dec(9_290_304, 4)),
        row(B::SquareMetres100, Area, ("100.m2", "100 m²", "100m2 100sqm 100squaremeters"), dec(100, 0)),
        row(B::Acre, Area, ("43560.[ft_i]2", "acre", "acre acres ac"), dec(40_468_564_224, 7)),
        row(B::Hectare, Area, ("har", "ha", "ha hectare hectares"), dec(10000, 0)),
        row(B::Kilogram, Mass, ("kg", "kg", ""), ONE),
        row(B::Gram, Mass, ("g", "g", "gram grams"), dec(1, 3)),
        row(B::Milligram, Mass, ("mg", "mg", ""), dec(1, 6)),
        row(B::Pound, Mass, ("[lb_av]", "lb", "lb lbs pound pounds"), dec(45_359_237, 8)),
        row(B::Ounce, Mass, ("[oz_av]", "oz", "oz ounce ounces"), dec(28_349_523_125, 12)),
        row(B::Litre, Volume, ("L", "L", "l liter liters litre litres"), dec(1, 3)),
        row(B::Millilitre, Volume, ("mL", "mL", "ml"), dec(1, 6)),
        row(B::CubicMetre, Volume, ("m3", "m³", "m3"), ONE),
        row(B::Litres100, Volume, ("100.L", "100 L", "100l 100liters 100litres"), dec(1, 1)),
        row(B::FluidOunce, Volume, ("[foz_us]", "fl oz", "floz fluidounce fluidounces"), dec(295_735_295_625, 16)),
        row(B::Teaspoon, Volume, ("[tsp_us]", "tsp", "tsp teaspoon teaspoons"), dec(492_892_159_375, 17)),
        row(B::Tablespoon, Volume, ("[tbs_us]", "tbsp", "tbsp tablespoon tablespoons"), dec(1_478_676_478_125, 17)),
        row(B::Cup, Volume, ("[cup_us]", "cup", "cup cups"), dec(2_365_882_365, 13)),
        row(B::Pint, Volume, ("[pt_us]", "pt", "pt pint pints"), dec(473_176_473, 12)),
        row(B::Quart, Volume, ("[qt_us]", "qt", "qt quart quarts"), dec(946_352_946, 12)),
        row(B::Gallon, Volume, ("[gal_us]", "gal", "gal gals gallon gallons"), dec(3_785_411_784, 12)),
        row(B::Gallons100, Volume, ("100.[gal_us]", "100 gal", "100gal 100gallons"), dec(3_785_411_784, 10)),
        row(B::Second, Time, ("s", "s", "sec secs second seconds"), ONE),
        row(B::Minute, Time, ("min", "min", "mins minute minutes"), dec(60, 0)),
        row(B::Hour, Time, ("h", "h", "hr hrs hour hours"), dec(3600, 0)),
        row(B::Day, Time, ("d", "days", "day days"), dec(86400, 0)),
        row(B::Week, Time, ("wk", "weeks", "week weeks"), dec(604_800, 0)),
        Row { by: dec(3600, 0), ..row(B::Knot, Speed, ("[kn_i]", "kn", "kn kt kts knot knots"), dec(1852, 0)) },
        Row { shift: dec(27315, 2), ..row(B::Celsius, Temperature, ("Cel", "°C", "c °c degc celsius"), ONE) },
        Row { by: dec(9, 0), shift: dec(45967, 2),
            ..row(B::Fahrenheit, Temperature, ("[degF]", "°F", "f °f degf degreesf fahrenheit"), dec(5, 0)) },
        row(B::Kelvin, Temperature, ("K", "K", ""), ONE),
        Row { by: dec(64516, 8), ..row(B::Psi, Pressure, ("[psi]", "psi", "psi"), dec(44_482_216_152_605, 13)) },
        row(B::Bar, Pressure, ("bar", "bar", "bars"), dec(100_000, 0)),
        row(B::Kilopascal, Pressure, ("kPa", "kPa", "kpa"), dec(1000, 0)),
        row(B::Percent, Percent, ("%", "%", "percent pct"), dec(1, 2)),
        Row { kind: Kind::Number, ..row(B::Number, Percent, ("1", "", ""), ONE) },
    ]
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_stand_in_the_order_of_their_keys() {
        for (index, row) in TABLE.iter().enumerate() {
            assert_eq!(row.base as usize, index, "{}", row.code);
        }
    }

    #[test]
    fn no_code_or_spelling_means_two_units() {
        let mut seen = std::collections::BTreeMap::new();
        for row in &TABLE {
            for name in row.spellings().chain([row.code]) {
                let other = seen.insert(name, row.code).unwrap_or(row.code);
                assert_eq!(other, row.code, "{name}");
            }
        }
    }
}
