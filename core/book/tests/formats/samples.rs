//! One value of every stored type, always the same.

use sward_book::env::TimeProof;
use sward_book::fact::{
    Admitted, Aftercare, AftercareDone, AftercareTask, ClockSeen, ControlCounted, Corrected,
    Counted, DeviceKeys, Fact, FinishChosen, Finished, Founded, HalfWayChecked, IncidentFiled,
    IncidentWhat, JoinAsked, Judged, KeepOffClaimed, KeepOffOpened, KeepOffReleased, KeepOffTold,
    LabelReadBack, LateSettled, Loaded, LookedDry, NotTreated, NotTreatedWhy, OneJob, Person,
    ReadBackHow, Recovered, Replacement, Retired, ReturnPlanned, ReturnWhat, Role, RoleGiven,
    SectionDone, SkySeen, Started, StationHeard, TaskState, TimeConfirmed, ToldHow, VisitOpened,
    WalkedRound, WindMeasured,
};
use sward_book::ids::{FactId, Hash, IncidentId, ItemId, KeepOffId, SheetId, StreamId, VisitId};
use sward_book::log::{Head, Stamp};
use sward_book::record::{TREATMENT_FORMAT, TreatedSection, Treatment};
use sward_rules::Entered;
use sward_rules::finding::{Check, Finding, Reason, Shown, Source, Verdict, Whose};
use sward_rules::label::{Ingredient, KeepOffTerms, Label, LabelSays, Method, WateringIn};
use sward_rules::look::{Sample, SampleMethod};
use sward_rules::measure::{Fix, Outline, Shape};
use sward_rules::sky::{
    AirReading, BeaufortSeen, Bloom, BloomLook, InversionLook, InversionSign, MeterReading, Soil,
    SoilLook,
};
use sward_rules::walk_round::{Answered, Question, WalkAnswer};
use uuid::Uuid;

const AT_MS: i64 = 1_781_524_800_000;

fn amount(typed: &str) -> Entered {
    Entered::parse(typed).expect("a number with its unit")
}

pub(crate) fn stream(n: u8) -> StreamId {
    StreamId([n; 32])
}

pub(crate) fn visit() -> VisitId {
    VisitId(Uuid::from_u128(0x0190_0000_0000_7000_8000_0000_0000_0001))
}

fn sheet() -> SheetId {
    SheetId(Uuid::from_u128(0x0190_0000_0000_7000_8000_0000_0000_0002))
}

fn keep_off() -> KeepOffId {
    KeepOffId(Uuid::from_u128(0x0190_0000_0000_7000_8000_0000_0000_0003))
}

fn item() -> ItemId {
    ItemId(Uuid::from_u128(0x0190_0000_0000_7000_8000_0000_0000_0004))
}

fn fact_id() -> FactId {
    FactId {
        entry: Hash([7; 32]),
        index: 1,
    }
}

pub(crate) fn stamp() -> Stamp {
    Stamp {
        utc_ms: AT_MS,
        offset_min: -240,
        proof: TimeProof::Network,
    }
}

fn keys() -> DeviceKeys {
    DeviceKeys {
        stream: stream(1),
        recipient: "age1sample".into(),
    }
}

fn person() -> Person {
    Person {
        name: "A. Sample".into(),
        licence: "00-TEST".into(),
    }
}

fn head() -> Head {
    Head {
        stream: stream(2),
        seq: 12,
        hash: Hash([3; 32]),
    }
}

fn terms() -> KeepOffTerms {
    KeepOffTerms {
        until_dry: LabelSays::Value(true),
        wait: LabelSays::Nothing,
    }
}

fn label() -> Label {
    Label {
        product: "Sample granule".into(),
        registration: "00000-000-TEST".into(),
        method: Method::Granule,
        ingredients: vec![Ingredient {
            name: "bifenthrin".into(),
            content: amount("0.2 %"),
        }],
        rate_least: LabelSays::Nothing,
        rate_most: LabelSays::Value(amount("2.50 lb/1000 ft2")),
        carrier_least: LabelSays::Unfilled,
        wind_most: LabelSays::Value(amount("10 mph")),
        rain_free: LabelSays::Value(amount("24 h")),
        temperature_least: LabelSays::Nothing,
        temperature_most: LabelSays::Value(amount("90 F")),
        keep_off: terms(),
        watering_in: LabelSays::Value(WateringIn::Required(Some(amount("0.25 in")))),
        repeat_after: LabelSays::Value(amount("30 d")),
    }
}

fn outline() -> Outline {
    Outline {
        shape: Shape::Rectangle {
            length: amount("60 ft"),
            width: amount("25 ft"),
        },
        left_out: vec![Shape::Walk {
            fixes: vec![Fix {
                lat_1e9: 40_000_000_000,
                lon_1e9: -75_000_000_000,
                accuracy_mm: Some(3_000),
                at_unix_ms: Some(AT_MS),
            }],
        }],
    }
}

fn finding() -> Finding {
    Finding::new(Check::Wind, Verdict::Caution, Reason::WindNearLabel)
        .and(Reason::ByBeaufort { force: 3 })
        .with_value(Shown::Amount {
            amount: amount("8.5 mph"),
        })
        .with_limit(
            Shown::Amount {
                amount: amount("10 mph"),
            },
            Whose::Label,
        )
        .with_age_min(2)
        .with_source(Source::Practice)
}

fn counted() -> Counted {
    let sample = Sample {
        method: SampleMethod::SodSquare(amount("1 ft")),
        count: 22,
    };
    Counted {
        visit: visit(),
        pest: "chinch bug".into(),
        samples: vec![sample],
        note: "edge".into(),
    }
}

fn wind() -> WindMeasured {
    let reading = MeterReading {
        at_utc_ms: AT_MS,
        wind: amount("6.2 mph"),
        gust: Some(amount("8.5 mph")),
        from_degrees: Some(225),
        height: None,
    };
    WindMeasured {
        visit: visit(),
        readings: vec![reading],
    }
}

fn loaded() -> Loaded {
    Loaded {
        visit: visit(),
        keep_offs: vec![keep_off()],
        product: amount("3.75 lb"),
        water: Some(amount("2 gal")),
        applied_utc_ms: AT_MS,
    }
}

fn sky() -> SkySeen {
    SkySeen {
        visit: visit(),
        air: Some(AirReading {
            at_utc_ms: AT_MS,
            temperature: amount("72 F"),
            humidity_percent: Some(55),
        }),
        inversion: Some(InversionLook {
            at_utc_ms: AT_MS,
            signs: vec![InversionSign::Dew],
        }),
        soil: Some(SoilLook {
            at_utc_ms: AT_MS,
            soil: Soil::Fit,
            temperature: None,
        }),
        bloom: Some(BloomLook {
            at_utc_ms: AT_MS,
            bloom: Bloom::None,
        }),
        wind: Some(BeaufortSeen {
            at_utc_ms: AT_MS,
            force: 2,
        }),
    }
}

pub(crate) fn treatment() -> Treatment {
    Treatment {
        format: TREATMENT_FORMAT,
        visit: visit(),
        crew: "Sample crew".into(),
        practice: true,
        yard: sheet(),
        yard_name: "Corner lot".into(),
        address: "1 Test Lane".into(),
        zone: "America/New_York".into(),
        target: "chinch bug".into(),
        label_sheet: sheet(),
        label: label(),
        rate: amount("2.5 lb/1000 ft2"),
        sections: vec![TreatedSection {
            section: item(),
            name: "front".into(),
            outline: outline(),
            area: "1,500 ft2".into(),
            keep_off: keep_off(),
            last_applied_utc_ms: AT_MS,
        }],
        loads: vec![loaded()],
        product_total: Some(amount("3.75 lb")),
        water_total: None,
        started: stamp(),
        finished: stamp(),
        applicator: person(),
        counts: vec![counted()],
        wind: vec![wind()],
        sky: vec![sky()],
        findings: vec![finding()],
        acknowledged: vec![Check::Rain],
        against: None,
        note: "nothing unusual".into(),
        equipment: Some("drop spreader, setting 5".into()),
        lot: None,
        gear: Some("gloves".into()),
        half_way: Some(vec![half_way()]),
        aftercare: Some(vec![aftercare()]),
    }
}

fn finished() -> Finished {
    // The bytes of a treatment have a snapshot of their own.
    Finished {
        visit: visit(),
        covers: vec![fact_id()],
        frozen: vec![0x80],
        frozen_hash: Hash([4; 32]),
        sections: vec![SectionDone {
            keep_off: keep_off(),
            last_applied_utc_ms: AT_MS,
        }],
    }
}

/// One of each fact, in the order of their numbers.
pub(crate) fn every_fact() -> Vec<Fact> {
    let mut facts = membership();
    facts.extend(looking());
    facts.extend(treating());
    facts.extend(settling());
    facts.extend(around());
    facts
}

fn membership() -> Vec<Fact> {
    vec![
        Fact::Founded(Founded {
            crew: "Sample crew".into(),
            practice: true,
            recovery_key: stream(9),
            device: keys(),
            person: person(),
        }),
        Fact::JoinAsked(JoinAsked {
            device: keys(),
            person: person(),
            was: Some(stream(2)),
        }),
        Fact::Admitted(Admitted {
            device: keys(),
            person: person(),
            role: Role::Applicator,
        }),
        Fact::Retired(Retired {
            stream: stream(2),
            last: Some(head()),
            why: "lost".into(),
        }),
        Fact::RoleGiven(RoleGiven {
            stream: stream(2),
            role: Role::CrewLead,
            last: None,
        }),
        Fact::Recovered(Recovered {
            device: keys(),
            person: person(),
            signature: vec![5; 64],
        }),
        Fact::ClockSeen(ClockSeen {
            stream: stream(2),
            seq: 12,
            ahead_ms_least: Some(-60_000),
            ahead_ms_most: None,
        }),
        Fact::TimeConfirmed(TimeConfirmed {
            how: TimeProof::Person,
        }),
        Fact::LabelReadBack(LabelReadBack {
            sheet: sheet(),
            numbers: Hash([6; 32]),
            how: ReadBackHow::SecondPerson,
            person: "B. Sample".into(),
        }),
    ]
}

fn looking() -> Vec<Fact> {
    let answers = vec![Answered {
        question: Question::Toys,
        answer: WalkAnswer::Moved,
        at_utc_ms: AT_MS,
    }];
    vec![
        Fact::VisitOpened(VisitOpened {
            visit: visit(),
            yard: sheet(),
            target: "grubs".into(),
        }),
        Fact::Counted(counted()),
        Fact::WindMeasured(wind()),
        Fact::StationHeard(StationHeard {
            visit: visit(),
            // An invented station.
            from: "KXXX".into(),
            text: "KXXX 151200Z 22006KT".into(),
            whole: Hash([8; 32]),
        }),
        Fact::WalkedRound(WalkedRound {
            visit: visit(),
            answers,
        }),
        Fact::Judged(Judged {
            visit: visit(),
            findings: vec![finding()],
            opens_next_utc_ms: Some(AT_MS),
            label_sheet: sheet(),
        }),
        Fact::NotTreated(NotTreated {
            visit: visit(),
            why: NotTreatedWhy::BelowThreshold,
            note: "few".into(),
            look_again: Some("2026-06-29".into()),
        }),
    ]
}

fn treating() -> Vec<Fact> {
    let opened = KeepOffOpened {
        keep_off: keep_off(),
        section: item(),
        name: "front".into(),
        outline: outline(),
    };
    vec![
        Fact::Started(Started {
            visit: visit(),
            label_sheet: sheet(),
            label: label(),
            rate: amount("2.5 lb/1000 ft2"),
            keep_offs: vec![opened],
            acknowledged: vec![Check::Rain],
            against: Some("the owner insists".into()),
            judged: Some(fact_id()),
            equipment: Some("drop spreader, setting 5, calibrated 2026-05-02".into()),
            lot: Some("LOT-0".into()),
            gear: Some("gloves, goggles".into()),
        }),
        Fact::Loaded(loaded()),
        Fact::Finished(finished()),
        Fact::KeepOffClaimed(KeepOffClaimed {
            visit: visit(),
            keep_off: keep_off(),
            supersedes: vec![fact_id()],
            terms: terms(),
            why: "the label says so".into(),
        }),
        Fact::LookedDry(LookedDry {
            visit: visit(),
            keep_offs: vec![keep_off()],
            looked_utc_ms: AT_MS,
            saw: vec![fact_id()],
        }),
        Fact::KeepOffReleased(KeepOffReleased {
            visit: visit(),
            keep_off: keep_off(),
            supersedes: vec![fact_id()],
            why: "sod was replaced".into(),
        }),
    ]
}

fn settling() -> Vec<Fact> {
    vec![
        Fact::Corrected(Corrected {
            visit: visit(),
            supersedes: vec![fact_id()],
            why: "a slip".into(),
            new: Replacement::Counted(counted()),
        }),
        Fact::FinishChosen(FinishChosen {
            visit: visit(),
            chosen: fact_id(),
            over: vec![fact_id()],
            why: "was there".into(),
        }),
        Fact::LateSettled(LateSettled {
            visit: visit(),
            addition: fact_id(),
            counts: true,
            why: "went on".into(),
        }),
        Fact::OneJob(OneJob {
            visits: vec![visit(), visit()],
            same: true,
        }),
        Fact::SkySeen(sky()),
    ]
}

fn half_way() -> HalfWayChecked {
    HalfWayChecked {
        visit: visit(),
        planned: amount("3.75 lb"),
        filled: amount("3.75 lb"),
        left: amount("1.8 lb"),
        done: amount("50 %"),
        rate_done: amount("2.6 lb/1000 ft2"),
        for_the_rest: amount("1.875 lb"),
        verdict: Verdict::Caution,
    }
}

fn aftercare() -> Aftercare {
    Aftercare {
        visit: visit(),
        done: vec![AftercareDone {
            task: AftercareTask::HardSurfacesSwept,
            state: TaskState::Done,
        }],
        note: "nothing left over".into(),
    }
}

fn around() -> Vec<Fact> {
    vec![
        Fact::ReturnPlanned(ReturnPlanned {
            visit: visit(),
            day: "2026-07-06".into(),
            what: ReturnWhat::ReCheck,
            note: "count again".into(),
        }),
        Fact::KeepOffTold(KeepOffTold {
            visit: visit(),
            keep_offs: vec![keep_off()],
            who: "the neighbour".into(),
            how: ToldHow::InPerson,
            told_dry_check: true,
        }),
        Fact::Aftercare(aftercare()),
        Fact::IncidentFiled(IncidentFiled {
            incident: IncidentId(Uuid::from_u128(12)),
            yard: Some(sheet()),
            visit: Some(visit()),
            what: IncidentWhat::Spill,
            told: "a bag tore".into(),
            done: "swept up".into(),
            who_called: "nobody".into(),
            happened_utc_ms: AT_MS,
        }),
        Fact::HalfWayChecked(half_way()),
        Fact::ControlCounted(ControlCounted {
            visit: visit(),
            counts: sward_rules::look::BeforeAfter {
                treated_before: 40,
                treated_after: 6,
                check_before: 38,
                check_after: 35,
            },
            note: String::new(),
        }),
    ]
}
