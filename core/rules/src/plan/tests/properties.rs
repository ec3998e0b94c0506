//! What must hold for any plan: monotone doses, loads that sum, never above the label's most.

use proptest::prelude::*;

use super::*;
use crate::quantity::to_f64;

/// Fifties of square feet that are a lawn: less than a tenth of a square foot is refused as none.
fn lawn() -> impl Strategy<Value = Decimal> {
    number().prop_filter("less is refused", |n| *n >= Decimal::new(1, 2))
}

/// A number from 1 to 9999 with up to three digits behind its point.
fn number() -> impl Strategy<Value = Decimal> {
    (1_i64..10_000, 0_u32..4).prop_map(|(mantissa, scale)| Decimal::new(mantissa, scale))
}

/// A number of three or four digits with up to three of them behind its point.
fn number_from(least: i64) -> impl Strategy<Value = Decimal> {
    (least..10_000, 0_u32..4).prop_map(|(mantissa, scale)| Decimal::new(mantissa, scale))
}

/// The two ways in which a workable plan may still fail: the last load, or a section, takes less
/// than one step; loads are made smaller by whole steps.
fn is_expected(error: &RuleError) -> bool {
    matches!(
        error,
        RuleError::VesselTooCoarse { .. } | RuleError::TooManyLoads { .. }
    )
}

fn entered(amount: Decimal, unit: &str) -> Entered {
    e(&format!("{amount} {unit}"))
}

proptest! {
    #[test]
    fn the_dose_grows_with_the_area(a in lawn(), more in number(), rate in number()) {
        let exact = |area: Decimal| {
            let area_m2 = area * Decimal::new(9_290_304, 8);
            entered(rate, "lb/1000 ft2").over_area(area_m2, e("1 oz").unit()).unwrap()
        };
        prop_assert!(exact(a + more) > exact(a));
    }

    #[test]
    fn dry_loads_sum_to_the_total_and_stay_below_the_most(
        areas in prop::collection::vec(lawn(), 1..5),
        rate in number(), steps in 2_u32..100, hoppers in 1_u32..300, range in any::<bool>(),
    ) {
        let sections: Vec<Section> = (1..)
            .zip(&areas)
            .map(|(n, a)| section(&format!("section {n}"), &format!("{} ft2", a * Decimal::from(50)), "0 ft2"))
            .collect();
        let most = format!("{} lb/1000 ft2", rate * Decimal::new(if range { 11 } else { 10 }, 1));
        let least = range.then(|| format!("{rate} lb/1000 ft2"));
        let label = label(Method::Granule, least.as_deref(), Some(&most));
        // A step that the smallest section takes at least once, and a hopper of at least one step.
        let ounces = |fifties: Decimal| rate * fifties * Decimal::new(8, 1);
        let smallest = areas.iter().min().copied().unwrap_or_default();
        let step = (ounces(smallest) / Decimal::from(steps)).round_sf(2).unwrap();
        let total = ounces(areas.iter().sum());
        let hopper = (total / Decimal::from(hoppers)).max(step * Decimal::TWO);
        let vessel = scale(&format!("{step} oz"));
        let mut input = dry(&sections, &label, &vessel);
        input.rate = entered(rate, "lb/1000 ft2");
        input.capacity = entered(hopper.round_sf(6).unwrap(), "oz");
        let plan = match plan(&input) {
            Ok(plan) => plan,
            Err(error) => {
                prop_assert!(is_expected(&error), "{error}");
                return Ok(());
            }
        };
        let total = plan.product.value.measured_out;
        let loads: Decimal = plan.loads.value.iter().map(|l| l.product.amount()).sum();
        prop_assert_eq!(loads, total.amount());
        let passes: Decimal = plan.passes.value.product.iter().map(Entered::amount).sum();
        prop_assert_eq!(passes, total.amount());
        for (section, area) in plan.sections.iter().zip(&areas) {
            let measured = section.measured_out.as_ref().unwrap().measured_out;
            let steps = measured.amount() / step;
            prop_assert_eq!(steps, steps.floor());
            let most_oz = to_f64(e(&most).amount()) * 16.0 * to_f64(*area) * 50.0 / 1000.0;
            prop_assert!(to_f64(measured.amount()) <= most_oz * (1.0 + 1e-12));
        }
    }

    #[test]
    fn mixed_loads_sum_to_the_total_and_stay_below_the_most(
        area in number_from(1_000), rate in number_from(100), times in 2_u32..1_000,
        tanks in 1_u32..400, steps in 100_u32..1_000,
    ) {
        let sections = [section("a", &format!("{} ft2", area * Decimal::from(50)), "0 ft2")];
        // Water in plenty beside the product, a tank that is not filled too often, and a step that
        // is small beside a tank's product.
        let carrier = rate * Decimal::from(times) / Decimal::ONE_THOUSAND;
        let area_1000_ft2 = area * Decimal::new(5, 2);
        let tank = (carrier * area_1000_ft2 / Decimal::from(tanks)).round_sf(4).unwrap();
        let full = rate * area_1000_ft2 / Decimal::from(tanks);
        let step = (full / Decimal::from(steps)).round_sf(2).unwrap();
        let rate = entered(rate, "mL/1000 ft2");
        let label = label(Method::Drench, None, Some(&rate.to_string()));
        let vessel = scale(&format!("{step} mL"));
        let mut input = dry(&sections, &label, &vessel);
        input.rate = rate;
        input.carrier = Some(entered(carrier, "L/1000 ft2"));
        input.capacity = entered(tank, "L");
        let plan = match plan(&input) {
            Ok(plan) => plan,
            Err(error) => {
                prop_assert!(is_expected(&error), "{error}");
                return Ok(());
            }
        };
        let loads: Decimal = plan.loads.value.iter().map(|l| l.product.amount()).sum();
        prop_assert_eq!(loads, plan.product.value.measured_out.amount());
        prop_assert!(loads <= plan.product.value.exact.amount() * Decimal::new(100_000_001, 8));
        let litres: Decimal = plan.loads.value.iter().filter_map(|l| l.carrier).map(|c| c.amount()).sum();
        let total = plan.carrier.unwrap().value.amount();
        prop_assert!((to_f64(litres) / to_f64(total) - 1.0).abs() < 1e-5);
        for load in &plan.loads.value {
            // Each load's strip is its share of the mix.
            let share = load.carrier.unwrap().amount() / carrier;
            prop_assert!(to_f64(load.product.amount()) <= to_f64(rate.amount() * share) * (1.0 + 1e-6));
            prop_assert!(load.change_percent.unwrap() < 1e-9);
        }
    }

    #[test]
    fn a_workable_plan_is_one_nearly_always(
        area in number_from(1_000), rate in number_from(100), steps in 100_u32..1_000,
    ) {
        // One tank for all: nothing is left over that could be less than a step.
        let sections = [section("a", &format!("{} ft2", area * Decimal::from(50)), "0 ft2")];
        let label = label(Method::Drench, None, Some(&format!("{rate} mL/1000 ft2")));
        let step = (rate * area * Decimal::new(5, 2) / Decimal::from(steps)).round_sf(2).unwrap();
        let vessel = scale(&format!("{step} mL"));
        let mut input = dry(&sections, &label, &vessel);
        input.rate = entered(rate, "mL/1000 ft2");
        input.carrier = Some(entered(rate, "L/1000 ft2"));
        input.capacity = entered((rate * area).round_sf(4).unwrap(), "L");
        prop_assert_eq!(plan(&input).map(|p| p.loads.value.len()), Ok(1));
    }
}
