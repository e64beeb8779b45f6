//! The block of the test ride.

use crate::sheet::bench::{LengthReading, SpeedReading};
use crate::sheet::date::Date;
use crate::sheet::handling::WhoseBike;
use crate::sheet::quantity::{Distance, Duration};
use crate::sheet::reader::{Marked, record};
use crate::sheet::text::{FileName, Text};
use crate::sheet::vocabulary::YesNo;

record! {
    /// The test ride.
    pub struct Ride {
        /// Day of the ride.
        date: Option<Marked<Date>>, "2026-03-10";
        /// Recorded track in the job folder (GPX).
        track: Option<Marked<FileName>>, "ride.gpx" => Decides;
        /// Whose bike the unit was ridden in.
        bike: Option<WhoseBike>, "owner" => AsNoted;
        /// The wheel of that bike, with the size that was set.
        wheel: Option<Text>, "29 x 2.4 inch, set to 2290 mm" => AsNoted;
        /// The level of assistance.
        assist: Option<Text>, "highest, then middle" => AsNoted;
        /// How long the ride took.
        duration: Option<Duration>, "35 min" => AsNoted;
        /// Whether the unit got hot, so that the ride is proof under heat as well.
        hot: Option<YesNo>, "yes" => AsNoted;
        /// Length of the ride.
        distance: Option<Distance>, "7.4 mi";
        /// Height climbed.
        climb: Option<Distance>, "310 ft";
        /// Speed at which the motor stops assisting.
        cut_off: Option<SpeedReading>, "25.2 km/h ± 0.3 km/h";
        /// Way that the motor runs on after the pedals stop.
        run_on: Option<LengthReading>, "1.2 m";
        /// Whether every brake lever cuts the motor off.
        brake_switches: Option<YesNo>, "yes" => AsNoted;
        /// Speed of the walk assistance.
        walk_assist: Option<SpeedReading>, "5.4 km/h";
        /// Codes on the display, or `none`.
        error_codes was "errors": Option<Text>, "none";
        /// The sound: silent, humming, grinding.
        noise: Option<Text>, "silent";
        /// How it rode, in plain words.
        note: Option<Text>, "It pulls evenly on every climb.";
    }
}
