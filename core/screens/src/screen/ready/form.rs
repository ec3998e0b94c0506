//! What is read and seen at the yard: wind by meter or by the trees, air, soil, blooms, signs of
//! an inversion. Nothing is filled in beforehand, and what is left empty was not looked at.

use maud::{Markup, html};
use sward_book::BookError;
use sward_book::fact::SkySeen;
use sward_book::ids::VisitId;
use sward_book::refusal::VisitRefusal;
use sward_rules::Entered;
use sward_rules::finding::{Check, Finding, Reason, Verdict};
use sward_rules::sky::{
    AirReading, BeaufortSeen, Bloom, BloomLook, InversionLook, InversionSign, MeterReading, Soil,
    SoilLook, must_be_meter_height, which_checks,
};

use super::read::Ready;
use crate::ask::{Ask, Doing, Next};
use crate::part::form::{FormPart, NumberField};
use crate::server::Form;
use crate::trouble::Wrong;
use crate::words::Units;
use crate::{Result, Trouble};

/// What the book takes for a wind at most, in metres per second.
const FASTEST_M_PER_S: u32 = 60;

/// Speeds of one series, by their fields.
const SPEEDS: [&str; 5] = ["wind1", "wind2", "wind3", "wind4", "wind5"];

/// As many as a series needs; further ones are folded away.
const SPEEDS_NEEDED: usize = 3;

/// The longest a series lasts that can be chosen, in minutes, with its words.
const SPANS: [(&str, &str); 3] = [
    ("1", "ready-span-1"),
    ("2", "ready-span-2"),
    ("5", "ready-span-5"),
];

/// Directions in degrees, with their words.
const FROM: [(&str, &str); 8] = [
    ("360", "ready-from-n"),
    ("45", "ready-from-ne"),
    ("90", "ready-from-e"),
    ("135", "ready-from-se"),
    ("180", "ready-from-s"),
    ("225", "ready-from-sw"),
    ("270", "ready-from-w"),
    ("315", "ready-from-nw"),
];

/// Beaufort forces by what the wind moves (US National Weather Service). From 7 on nobody treats,
/// so they are one choice.
const FORCES: [(&str, &str); 8] = [
    ("0", "ready-force-0"),
    ("1", "ready-force-1"),
    ("2", "ready-force-2"),
    ("3", "ready-force-3"),
    ("4", "ready-force-4"),
    ("5", "ready-force-5"),
    ("6", "ready-force-6"),
    ("7", "ready-force-7"),
];

const SOILS: [(&str, Soil, &str); 5] = [
    ("fit", Soil::Fit, "ready-soil-fit"),
    ("dry", Soil::DustDry, "ready-soil-dust-dry"),
    ("soaked", Soil::Soaked, "ready-soil-soaked"),
    ("frozen", Soil::Frozen, "ready-soil-frozen"),
    (
        "dormant",
        Soil::DroughtDormant,
        "ready-soil-drought-dormant",
    ),
];

const BLOOMS: [(&str, Bloom, &str); 3] = [
    ("none", Bloom::None, "ready-bloom-none"),
    ("beside", Bloom::Beside, "ready-bloom-beside"),
    ("on", Bloom::OnLawn, "ready-bloom-on-lawn"),
];

/// "Looked, and saw none" among the signs of an inversion.
const NO_SIGN: &str = "none";

const SIGNS: [(&str, InversionSign, &str); 5] = [
    ("smoke", InversionSign::HangingSmoke, "ready-sign-smoke"),
    ("fog", InversionSign::Fog, "ready-sign-fog"),
    ("dew", InversionSign::Dew, "ready-sign-dew"),
    ("still", InversionSign::StillAir, "ready-sign-still"),
    ("sun", InversionSign::ClearSkyLowSun, "ready-sign-low-sun"),
];

/// The groups of fields, by the checks that they answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Group {
    Wind,
    Air,
    Soil,
    Bloom,
    Inversion,
}

impl Group {
    const ALL: [Self; 5] = [
        Self::Wind,
        Self::Air,
        Self::Soil,
        Self::Bloom,
        Self::Inversion,
    ];

    fn checks(self) -> &'static [Check] {
        match self {
            Self::Wind => &[Check::Wind],
            Self::Air => &[Check::Temperature, Check::DryingSpeed],
            Self::Soil => &[Check::Soil],
            Self::Bloom => &[Check::Bloom],
            Self::Inversion => &[Check::Inversion],
        }
    }
}

/// What a person can still read or see here, and what was read or seen already. Groups that the
/// method does not ask for are in neither.
pub(super) fn missing_and_had(ready: &Ready) -> (Vec<Group>, Vec<Group>) {
    let asked = which_checks(ready.label.method);
    Group::ALL
        .into_iter()
        .filter(|g| g.checks().iter().any(|c| asked.contains(c)))
        .partition(|g| {
            let own = ready
                .findings
                .iter()
                .filter(|f| g.checks().contains(&f.check));
            own.into_iter().any(can_be_looked_at)
        })
}

/// Whether a look or a reading changes an answer; what the label sheet lacks no reading mends.
fn can_be_looked_at(finding: &Finding) -> bool {
    finding.verdict == Verdict::Unknown
        && !finding.reasons().any(|r| {
            matches!(
                r,
                Reason::LabelFieldEmpty { .. }
                    | Reason::LabelFieldUnusable { .. }
                    | Reason::TimeNotProven
            )
        })
}

/// A form for some groups; `is_next` when filling it in is the next step.
pub(super) fn form(ask: &Ask<'_>, ready: &Ready, groups: &[Group], is_next: bool) -> Markup {
    let form = ask.form_keyed("seen", if is_next { "missing" } else { "again" });
    form.wrap(html! {
        @for group in groups {
            @match group {
                Group::Wind => (wind(ask, &form)),
                Group::Air => (air(ask, &form, ready)),
                Group::Soil => {
                    (form.choice("soil", "ready-soil", &named(ask, &SOILS), None))
                    (form.number(&NumberField {
                        name: "soil-temperature",
                        label: "ready-soil-temperature",
                        unit: units(ask).1,
                        filled: None,
                        from: String::new(),
                    }))
                }
                Group::Bloom => (form.choice("bloom", "ready-bloom", &named(ask, &BLOOMS), None)),
                Group::Inversion => {
                    (form.several("inversion", "ready-inversion", &signs(ask), &[]))
                }
            }
        }
        @if is_next { (form.submit("ready-keep-seen")) } @else { (form.quiet_submit("ready-keep-seen")) }
    })
}

fn wind(ask: &Ask<'_>, form: &FormPart<'_>) -> Markup {
    let (unit, _) = units(ask);
    let number = |name: &str, label: String| {
        let field = NumberField {
            name,
            label: "",
            unit,
            filled: None,
            from: String::new(),
        };
        form.number_called(&field, &label)
    };
    let speed = |index: usize| {
        let n = i64::try_from(index + 1).unwrap_or(i64::MAX);
        number(
            SPEEDS[index],
            ask.words.t_with("ready-wind", &[("n", n.into())]),
        )
    };
    let spans: Vec<_> = SPANS.iter().map(|(v, key)| (*v, ask.t(key))).collect();
    let from: Vec<_> = FROM.iter().map(|(v, key)| (*v, ask.t(key))).collect();
    let forces: Vec<_> = FORCES.iter().map(|(v, key)| (*v, ask.t(key))).collect();
    html! {
        h3 { (ask.t("ready-wind-title")) }
        p.note { (ask.t("ready-wind-how")) }
        @for n in 0..SPEEDS_NEEDED { (speed(n)) }
        details {
            summary { (ask.t("ready-more-speeds")) }
            @for n in SPEEDS_NEEDED..SPEEDS.len() { (speed(n)) }
        }
        (form.choice("span", "ready-span", &spans, None))
        (number("gust", ask.t("ready-gust")))
        (form.choice("from", "ready-from", &from, None))
        (form.number(&NumberField {
            name: "height",
            label: "ready-height",
            unit: height_unit(ask),
            filled: None,
            from: String::new(),
        }))
        details {
            summary { (ask.t("ready-no-meter")) }
            (form.choice("force", "ready-force", &forces, None))
        }
    }
}

fn air(ask: &Ask<'_>, form: &FormPart<'_>, ready: &Ready) -> Markup {
    let (_, unit) = units(ask);
    let asks_humidity = which_checks(ready.label.method).contains(&Check::DryingSpeed);
    let field = |name, label, unit| {
        form.number(&NumberField {
            name,
            label,
            unit,
            filled: None,
            from: String::new(),
        })
    };
    html! {
        h3 { (ask.t("ready-air-title")) }
        (field("air", "ready-air", unit))
        @if asks_humidity { (field("humidity", "ready-humidity", "%")) }
    }
}

fn named<T>(ask: &Ask<'_>, of: &[(&'static str, T, &str)]) -> Vec<(&'static str, String)> {
    of.iter()
        .map(|(value, _, key)| (*value, ask.t(key)))
        .collect()
}

fn signs(ask: &Ask<'_>) -> Vec<(String, String)> {
    let none = (NO_SIGN.to_owned(), ask.t("ready-sign-none"));
    SIGNS
        .iter()
        .map(|(value, _, key)| ((*value).to_owned(), ask.t(key)))
        .chain([none])
        .collect()
}

fn height_unit(ask: &Ask<'_>) -> &'static str {
    match ask.words.units {
        Units::Us => "ft",
        Units::Metric => "m",
    }
}

/// The units of speed and temperature that are offered.
fn units(ask: &Ask<'_>) -> (&'static str, &'static str) {
    match ask.words.units {
        Units::Us => ("mph", "degF"),
        Units::Metric => ("m/s", "Cel"),
    }
}

/// Records what was read and seen.
pub(super) fn keep(doing: &mut Doing<'_>) -> Result<Next> {
    let visit: VisitId = doing.param("visit")?;
    let now_ms = doing.now_ms();
    let readings = readings(doing.form, now_ms);
    let seen = seen(doing.form, visit, now_ms);
    let (readings, seen) = match (readings, seen) {
        (Ok(readings), Ok(seen)) => (readings, seen),
        (Err(a), Err(b)) => return Err(Trouble::Fields(vec![a, b])),
        (Err(error), _) | (_, Err(error)) => return Err(error),
    };
    if readings.is_empty() && seen.is_none() {
        return Err(Wrong::Missing.into());
    }
    let book = doing.book()?;
    if !readings.is_empty() {
        book.measure_wind(visit, readings)
            .map_err(|e| Trouble::in_field(SPEEDS[0], e))?;
    }
    if let Some(seen) = seen {
        book.see_sky(seen)?;
    }
    Ok(Next::Go(format!("/visit/{visit}/ready")))
}

/// The series of a wind meter: the speeds evenly over the time that the person says they took, the
/// last of them now; the gust with the last.
fn readings(form: &Form, now_ms: i64) -> Result<Vec<MeterReading>> {
    let mut speeds = Vec::new();
    for name in SPEEDS {
        if let Some(speed) = form.amount(name)? {
            must_be_wind(name, &speed)?;
            speeds.push(speed);
        }
    }
    let gust = form.amount("gust")?;
    if let Some(gust) = &gust {
        must_be_wind("gust", gust)?;
    }
    let from = offered(form, "from", &FROM)?;
    let height = form.amount("height")?;
    if let Some(height) = &height {
        must_be_meter_height(height).map_err(|e| Trouble::in_field("height", e))?;
    }
    if speeds.is_empty() {
        return if gust.is_some() || from.is_some() || height.is_some() {
            Err(Trouble::field(SPEEDS[0], Wrong::Missing))
        } else {
            Ok(Vec::new())
        };
    }
    let span_min: i64 = match (offered(form, "span", &SPANS)?, speeds.len()) {
        (Some(minutes), _) => minutes,
        (None, 1) => 0,
        (None, _) => return Err(Trouble::field("span", Wrong::Missing)),
    };
    let last = i64::try_from(speeds.len() - 1).unwrap_or(0);
    Ok(speeds
        .into_iter()
        .zip(0_i64..)
        .map(|(wind, index)| MeterReading {
            at_utc_ms: now_ms - span_min * 60_000 * (last - index) / last.max(1),
            wind,
            gust: gust.filter(|_| index == last),
            from_degrees: from,
            height,
        })
        .collect())
}

/// What the book would refuse of a speed, said beside its own field.
fn must_be_wind(field: &str, speed: &Entered) -> Result<()> {
    let value = speed
        .to_speed()
        .map_err(|e| Trouble::in_field(field, e))?
        .value;
    if (0.0..=f64::from(FASTEST_M_PER_S)).contains(&value) {
        return Ok(());
    }
    let cannot_be = BookError::refused(VisitRefusal::WindCannotBe {
        reading: speed.for_person(),
        metres_per_second_most: FASTEST_M_PER_S,
    });
    Err(Trouble::in_field(field, cannot_be))
}

/// What was seen; none where nothing was.
fn seen(form: &Form, visit: VisitId, at_utc_ms: i64) -> Result<Option<SkySeen>> {
    let humidity_percent = humidity(form)?;
    let air = match form.amount("air")? {
        Some(temperature) => {
            temperature
                .to_temperature()
                .map_err(|e| Trouble::in_field("air", e))?;
            Some(AirReading {
                at_utc_ms,
                temperature,
                humidity_percent,
            })
        }
        None if humidity_percent.is_some() => {
            return Err(Trouble::field("air", Wrong::Missing));
        }
        None => None,
    };
    let force: Option<u8> = offered(form, "force", &FORCES)?;
    let seen = SkySeen {
        visit,
        air,
        inversion: inversion(form)?.map(|signs| InversionLook { at_utc_ms, signs }),
        soil: soil(form, at_utc_ms)?,
        bloom: one_of(form, "bloom", &BLOOMS)?.map(|bloom| BloomLook { at_utc_ms, bloom }),
        wind: force.map(|force| BeaufortSeen { at_utc_ms, force }),
    };
    let is_something = seen.air.is_some()
        || seen.inversion.is_some()
        || seen.soil.is_some()
        || seen.bloom.is_some()
        || seen.wind.is_some();
    Ok(is_something.then_some(seen))
}

/// The soil, and its temperature where a thermometer was put in.
fn soil(form: &Form, at_utc_ms: i64) -> Result<Option<SoilLook>> {
    let temperature = form.amount("soil-temperature")?;
    if let Some(temperature) = &temperature {
        temperature
            .to_temperature()
            .map_err(|e| Trouble::in_field("soil-temperature", e))?;
    }
    match one_of(form, "soil", &SOILS)? {
        Some(soil) => Ok(Some(SoilLook {
            at_utc_ms,
            soil,
            temperature,
        })),
        None if temperature.is_some() => Err(Trouble::field("soil", Wrong::Missing)),
        None => Ok(None),
    }
}

/// Whole percent; a meter's tenths are nothing to anyone.
fn humidity(form: &Form) -> Result<Option<u8>> {
    let Some(typed) = form.amount("humidity")? else {
        return Ok(None);
    };
    let share = typed
        .to_share()
        .map_err(|e| Trouble::in_field("humidity", e))?
        .value;
    if !(0.0..=1.0).contains(&share) {
        return Err(Trouble::field("humidity", Wrong::Most { most: 100 }));
    }
    Ok(format!("{:.0}", share * 100.0).parse().ok())
}

/// None where nobody looked; an empty list where somebody looked and saw no sign.
fn inversion(form: &Form) -> Result<Option<Vec<InversionSign>>> {
    let ticked: Vec<&str> = form.all("inversion").collect();
    if ticked.is_empty() {
        return Ok(None);
    }
    if ticked.contains(&NO_SIGN) {
        return match ticked.len() {
            1 => Ok(Some(Vec::new())),
            _ => Err(Trouble::field("inversion", Wrong::NotOffered)),
        };
    }
    let sign = |value: &&str| {
        SIGNS
            .iter()
            .find(|(v, ..)| v == value)
            .map(|(_, sign, _)| *sign)
    };
    let signs: Option<Vec<_>> = ticked.iter().map(sign).collect();
    signs
        .map(Some)
        .ok_or_else(|| Trouble::field("inversion", Wrong::NotOffered))
}

fn one_of<T: Copy>(form: &Form, field: &str, of: &[(&str, T, &str)]) -> Result<Option<T>> {
    match form.text(field) {
        "" => Ok(None),
        typed => of
            .iter()
            .find(|(value, ..)| *value == typed)
            .map(|(_, meant, _)| Some(*meant))
            .ok_or_else(|| Trouble::field(field, Wrong::NotOffered)),
    }
}

/// A number that is among those offered; none where nothing is chosen.
fn offered<T: std::str::FromStr>(
    form: &Form,
    field: &str,
    of: &[(&str, &str)],
) -> Result<Option<T>> {
    let typed = form.text(field);
    if typed.is_empty() {
        return Ok(None);
    }
    of.iter()
        .find(|(value, _)| *value == typed)
        .and_then(|(value, _)| value.parse().ok())
        .map(Some)
        .ok_or_else(|| Trouble::field(field, Wrong::NotOffered))
}

#[cfg(test)]
mod tests;
