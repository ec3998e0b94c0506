//! One tank for several yards.

use sward_rules::Entered;
use sward_rules::finding::sum;
use sward_rules::mix::{
    Already, Draw, Leftover, Served, Serving, Site, Stop, TankMix, leftover_choices, serve,
};

use super::{Worked, label, short, stated};
use crate::args::{TankCalc, typed};
use crate::error::{CliError, Result};
use crate::words::{CAUTION, verdict};

/// Draws, what is left, and where a leftover may go.
pub(super) fn tank(args: &TankCalc) -> Result<Worked> {
    let mut worked = Worked::default();
    let label = label(&args.label);
    let tank = TankMix {
        product: args.product,
        mix: args.mix,
    };
    let draws = args.draw.iter().map(draw).collect::<Result<Vec<_>>>()?;
    let to_come = args
        .next
        .iter()
        .map(|(name, area)| {
            Ok(Stop {
                name: name.clone(),
                area: stated(area)?,
            })
        })
        .collect::<Result<Vec<_>>>()?;
    let served = serve(&Serving {
        label: &label,
        tank: &tank,
        carrier: args.carrier,
        draws: &draws,
        to_come: &to_come,
    })?;
    let served = worked.take("draws", served);
    told(&served, &mut worked);
    if !args.site.is_empty() {
        leftover(args, &tank, served.left, &mut worked)?;
    }
    worked.line(CAUTION).value("tank", &served);
    Ok(worked)
}

fn told(served: &Served, worked: &mut Worked) {
    for draw in &served.draws {
        let rate = draw
            .rate
            .map_or_else(|| "rate not known".into(), |rate| short(&rate));
        worked.line(format!(
            "{}: {} with {} of product, {rate}: {}; covers {} as planned; {} left",
            draw.name,
            draw.drawn.for_person(),
            draw.product.for_person(),
            verdict(sum(&draw.findings)),
            draw.covers.for_person(),
            draw.left.for_person()
        ));
        worked.findings(draw.findings.clone());
    }
    worked.line(format!(
        "Left: {} with {} of product, for {}",
        served.left.for_person(),
        served.product_left.for_person(),
        served.left_covers.for_person()
    ));
    if let Some(to_come) = &served.to_come {
        let short = served
            .short
            .map_or_else(|| "enough".into(), |s| format!("{} short", s.for_person()));
        worked.line(format!("To come: {}; {short}", to_come.for_person()));
    }
}

fn leftover(args: &TankCalc, tank: &TankMix, left: Entered, worked: &mut Worked) -> Result<()> {
    let sites = args.site.iter().map(site).collect::<Result<Vec<_>>>()?;
    let choices = leftover_choices(&Leftover {
        label: &label(&args.label),
        tank,
        left,
        carrier: args.carrier,
        sites: &sites,
    })?;
    let choices = worked.take("leftover", choices);
    for site in &choices.sites {
        let takes = match (&site.takes, &site.least_area) {
            (Some(takes), Some(area)) => format!(
                "takes {}; all of it needs {} there",
                takes.for_person(),
                area.for_person()
            ),
            _ => "takes none".to_owned(),
        };
        let word = verdict(site.verdict());
        worked.line(format!("{}: {word}; {takes}", site.name));
        worked.findings(site.findings.clone());
    }
    worked.line("Where no site takes it: by the label and the local code.");
    worked.value("leftover", &choices);
    Ok(())
}

fn draw((name, text): &(String, String)) -> Result<Draw> {
    let (drawn, area) =
        typed::amount_on(text).map_err(|e| CliError::Usage(format!("{name}: {e}")))?;
    let drawn = drawn
        .ok_or_else(|| CliError::Usage(format!("{name}: give what was drawn, such as 10 gal")))?;
    Ok(Draw {
        name: name.clone(),
        drawn,
        area: area.as_ref().map(stated).transpose()?,
    })
}

fn site((name, text): &(String, String)) -> Result<Site> {
    let (area, others) = typed::parts(text);
    let mut site = Site {
        name: name.clone(),
        on_label: None,
        area: stated(&Entered::parse(area)?)?,
        already: Already::NotKnown,
    };
    for (key, rest) in others {
        match (key, rest) {
            ("label", "yes") => site.on_label = Some(true),
            ("label", "no") => site.on_label = Some(false),
            ("got", "nothing") => site.already = Already::Nothing,
            ("got", rate) => site.already = Already::Rate(Entered::parse(rate)?),
            _ => {
                let form = "1000 ft2; label yes; got nothing";
                return Err(CliError::Usage(format!(
                    "{name}: `{key} {rest}` is not understood; write it like {name}=\"{form}\""
                )));
            }
        }
    }
    Ok(site)
}
