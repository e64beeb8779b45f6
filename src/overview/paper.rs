//! The overview as a paper for the workshop: what its layout sees.
//!
//! In: an [`Overview`] and the words of the papers; out: [`View`]. It is in English, as all that the
//! technician reads of this program.

mod scores;
mod section;

use chrono::NaiveDate;
use serde::Serialize;

use section::{Section, ShareLine, counted, table};

use super::curve;
use super::learned::{FEWEST_FAILURES, FEWEST_UNITS, Grouped, Named, Overview};
use super::quartiles::Quartiles;
use super::share::{FEWEST_JOBS, Share};
use crate::document::material::Cover;
use crate::document::view::Frame;
use crate::document::wording::Wording;
use crate::document::{format, frame};
use crate::sheet::profile::Units;

/// The paper.
#[derive(Debug, Serialize)]
pub struct View {
    /// What every paper has.
    #[serde(flatten)]
    frame: Frame,
    /// The one sentence.
    lead: String,
    /// What it rests on.
    text: Vec<String>,
    /// Its sections.
    sections: Vec<Section>,
}

/// Builds the view.
pub fn view(overview: &Overview, cover: &Cover<'_>, wording: &Wording) -> View {
    let words = Words { wording, units: cover.workshop.fields.units.unwrap_or_default() };
    let sections = [
        words.causes(overview),
        words.distance(overview),
        words.repairs(overview),
        words.money(overview),
        words.days(overview),
    ];
    let groups = overview.groups.iter().map(|grouped| words.groups(grouped));
    let scores = overview
        .scores
        .as_ref()
        .map(|compared| scores::section(compared, &|cause| words.cause(cause)));
    let all = sections.into_iter().chain(groups).flatten().chain(scores);
    View {
        frame: frame::frame(cover, wording, "What the closed jobs say".to_owned()),
        lead: words.lead(overview),
        text: words.rests_on(overview),
        sections: all.collect(),
    }
}

struct Words<'a> {
    wording: &'a Wording,
    units: Units,
}

impl Words<'_> {
    fn cause(&self, word: &str) -> String {
        let known = self.wording.choice_if("causes-as-subject", word);
        known.map_or_else(|| word.replace('-', " "), str::to_owned)
    }

    /// A kind of work: an option, or how a job without one ended.
    fn kind(&self, word: &str) -> String {
        let known = ["option-kinds-short", "outcomes"];
        let known = known.into_iter().find_map(|choices| self.wording.choice_if(choices, word));
        known.map_or_else(|| word.replace('-', " "), str::to_owned)
    }

    fn way(&self, km: f64) -> String {
        match self.units {
            Units::Imperial => format!("{:.0} mi", km / curve::KM_PER_MILE),
            Units::Metric => format!("{km:.0} km"),
        }
    }

    fn rests_on(&self, overview: &Overview) -> Vec<String> {
        let jobs = &overview.jobs;
        let day = |day: Option<NaiveDate>| day.map(|day| format::day(day, self.wording));
        let between = match (day(jobs.from), day(jobs.to)) {
            (Some(from), Some(to)) if from == to => format!(" that came in on {from}"),
            (Some(from), Some(to)) => format!(" that came in from {from} to {to}"),
            _ => String::new(),
        };
        let mut text =
            vec![format!("It rests on {}{between}.", counted(jobs.closed, "closed job"))];
        if 0 < jobs.open {
            text.push(format!("Not in it: {} without an outcome.", counted(jobs.open, "job")));
        }
        if 0 < jobs.unread {
            let sheets = counted(jobs.unread, "sheet");
            text.push(format!(
                "Not in it: {sheets} that cannot be used; `splitcase jobs` says why."
            ));
        }
        text.push(
            "Only units that came here are in it: it says what fails among those, not how often a model fails. A \
             dot is a share, the line through it its 95 % confidence interval (Wilson)."
                .to_owned(),
        );
        text
    }

    fn lead(&self, overview: &Overview) -> String {
        let Some(first) = overview.causes.first() else {
            return "No closed job states a cause yet.".to_owned();
        };
        if first.share.of < FEWEST_JOBS {
            return format!("{} say little yet.", counted(first.share.of, "closed job"));
        }
        if overview.causes.get(1).is_some_and(|second| second.share.count == first.share.count) {
            return "No cause was more frequent than all others.".to_owned();
        }
        let most = match first.name.as_str() {
            "no-fault-found" => "no fault was found".to_owned(),
            "undetermined" => "the signs did not settle the cause".to_owned(),
            name => format!("the cause was {}", self.cause(name)),
        };
        format!("Most often {most}: in {}.", shared(&first.share))
    }

    fn causes(&self, overview: &Overview) -> Option<Section> {
        let lines = overview.causes.iter().map(|one| self.line(one, None));
        let rest = overview.unexplained.iter().filter(|one| 0 < one.share.count);
        let rest: Vec<String> = rest
            .map(|one| {
                let name = match one.name.as_str() {
                    "judged" => {
                        "a cause that is the technician's judgement and not carried by the signs"
                    }
                    "no-cause-stated" => "no cause stated",
                    "undetermined" => "a cause that the signs did not settle",
                    _ => "no fault found",
                };
                format!("{name} in {}", shared(&one.share))
            })
            .collect();
        let text = match rest.is_empty() {
            true => Vec::new(),
            false => vec![format!("Not explained: {}.", rest.join("; "))],
        };
        let shares: Vec<ShareLine> = lines.collect();
        (!shares.is_empty()).then(|| Section {
            heading: "What the causes were".to_owned(),
            text,
            shares,
            ..Section::default()
        })
    }

    fn line(&self, one: &Named, group: Option<String>) -> ShareLine {
        let Share { count, of, low, high } = one.share;
        let at = count as f64 / of as f64;
        ShareLine { name: self.cause(&one.name), at, low, high, words: shared(&one.share), group }
    }

    fn distance(&self, overview: &Overview) -> Option<Section> {
        let distance = &overview.distance;
        if distance.units == 0 {
            return None;
        }
        let units = counted(distance.units, "unit");
        let known = format!(
            "Known of {units} with a serial number and a distance; {} came with a part worn, damaged, failed or \
             missing, services aside. The others count to their last visit.",
            distance.failures
        );
        let heading = "How far units run before they first fail here".to_owned();
        if distance.steps.is_empty() {
            let few = format!(
                "Too few for a curve: that takes {FEWEST_UNITS} units and {FEWEST_FAILURES} failures among them."
            );
            return Some(Section { heading, text: vec![known, few], ..Section::default() });
        }
        let mut text = vec![known];
        text.push(match distance.median_km {
            Some(km) => format!("By the curve, half have failed by {}.", self.way(km)),
            None => "By the curve, fewer than half have failed by the largest distance.".to_owned(),
        });
        if let Some(fitted) = &distance.weibull {
            let says = if fitted.shape < 0.9 {
                "early failures are the more frequent ones"
            } else if fitted.shape <= 1.1 {
                "failures come at any distance alike"
            } else {
                "failures become more frequent with the distance, as by wear"
            };
            text.push(format!(
                "A Weibull distribution through them has the shape {:.2} ({says}) and the scale {}; at its farthest it \
                 is {:.0} % of the units away from the steps.",
                fitted.shape,
                self.way(fitted.scale),
                100.0 * fitted.farthest
            ));
        }
        let curve = Some(curve::drawn(distance, self.units));
        Some(Section { heading, text, curve, ..Section::default() })
    }

    fn repairs(&self, overview: &Overview) -> Option<Section> {
        let rows = overview.repairs.iter().map(|row| {
            let back = &row.came_back;
            let share = match back.of < FEWEST_JOBS {
                true => "too few to say".to_owned(),
                false => interval(back),
            };
            let days = row.days.as_ref().map_or_else(|| "none".to_owned(), |days| middle(days, 0));
            vec![self.kind(&row.kind), back.of.to_string(), back.count.to_string(), share, days]
        });
        let rows: Vec<Vec<String>> = rows.collect();
        let columns = vec!["Work", "Repairs", "Came back", "Share", "Days until then"];
        table(
            "Which repairs held",
            "A unit came back if it was here again, by its serial number, with a part worn, damaged, failed or missing, \
             whatever part that was. \
             Late repairs have had less time to come back.",
            columns,
            rows,
        )
    }

    fn money(&self, overview: &Overview) -> Option<Section> {
        let rows = overview.costs.iter().map(|row| {
            let parts =
                row.parts.map_or_else(String::new, |parts| format!("{:.0} %", 100.0 * parts));
            let hours = row.hours.as_ref().map_or_else(String::new, |hours| middle(hours, 1));
            let total = format!("{} {}", row.currency, middle(&row.total, 2));
            vec![self.kind(&row.kind), row.total.count.to_string(), total, parts, hours]
        });
        let columns =
            vec!["Work", "Bills", "Bill with tax, middle half", "Parts of it", "Hours of work"];
        let text = "Bills that owners paid. What parts cost the workshop is on no sheet, so no margin can be told.";
        table("What was billed", text, columns, rows.collect())
    }

    fn days(&self, overview: &Overview) -> Option<Section> {
        let rows = overview.days.iter().map(|row| {
            vec![self.kind(&row.kind), row.days.count.to_string(), middle(&row.days, 0)]
        });
        let columns = vec!["Work", "Jobs", "Days, middle half"];
        table("Days from arrival to return", "", columns, rows.collect())
    }

    fn groups(&self, grouped: &Grouped) -> Option<Section> {
        let name = |name: &str| match grouped.by {
            "model" => name.to_owned(),
            _ => name.replace('-', " "),
        };
        let lines = grouped.groups.iter().flat_map(|group| {
            group
                .causes
                .iter()
                .enumerate()
                .map(|(at, one)| self.line(one, (at == 0).then(|| name(&group.name))))
        });
        let shares: Vec<ShareLine> = lines.collect();
        let heading = match grouped.by {
            "model" => "Causes by model",
            "used-for" => "Causes by use",
            _ => "Causes by how the bike is washed",
        };
        let mut text = Vec::new();
        if 0 < grouped.small {
            text.push(format!(
                "Fewer than {FEWEST_JOBS} jobs each, so not shown: {} with {} in all.",
                counted(grouped.small, "group"),
                counted(grouped.jobs_in_small, "job")
            ));
        }
        let has_any = !shares.is_empty() || !text.is_empty();
        has_any.then(|| Section { heading: heading.to_owned(), text, shares, ..Section::default() })
    }
}

/// `21 of 48, 44 % (31 to 58 %)`.
fn shared(share: &Share) -> String {
    format!("{} of {}, {}", share.count, share.of, interval(share))
}

fn interval(share: &Share) -> String {
    let part = 100.0 * share.count as f64 / share.of as f64;
    format!("{part:.0} % ({:.0} to {:.0} %)", 100.0 * share.low, 100.0 * share.high)
}

/// `240.00 (198.50 to 262.00)`, or the one figure.
fn middle(quarters: &Quartiles, digits: usize) -> String {
    let Quartiles { count, lower, median, upper } = quarters;
    match count {
        1 => format!("{median:.digits$}"),
        _ => format!("{median:.digits$} ({lower:.digits$} to {upper:.digits$})"),
    }
}
