//! Who stays off a piece of ground, and until when.

use clap::Args;

const FORM: &str = "\
A treatment is what is known of it, split by semicolons; what is left out is not known:
  started=TIME; finished=TIME     the first start, the last application
  wait=\"24 h\" or nothing          the label's wait, or that it sets none
  until-dry=yes, no or nothing    whether the label wants it dry
  water-in=yes or no              whether the label wants it watered in
  watered=TIME; dry=TIME          when watering in ended; when somebody saw it dry
  place-wait=\"72 h\"; place-dry=yes  what the place asks for besides the label
  site=lawn or sod-farm; worker-interval=\"12 h\"  the label's interval for farm workers
  clock-off=\"2 min\"               by how much the clocks behind these times may be off
Times are like \"2026-06-15 08:30\".";

/// Treatments of one piece of ground.
#[derive(Debug, Args)]
#[command(after_help = FORM)]
pub(crate) struct KeepOffCalc {
    /// A treatment that reached the ground; several times for several
    #[arg(long = "treatment", value_name = "KEY=VALUE; ...", required = true)]
    pub(crate) treatments: Vec<String>,
    /// The yard's time zone, like America/New_York
    #[arg(long, value_name = "ZONE")]
    pub(crate) zone: String,
    /// The time now
    #[arg(long, value_name = "TIME")]
    pub(crate) now: String,
    /// Nothing but the device's clock vouches for the time now
    #[arg(long)]
    pub(crate) unproven: bool,
}
