//! What is charged: parts, work, fees, what is taken off, and how a job is billed.
//!
//! The blocks of the sheet on money; where they belong in it is in `findings.rs`.

use super::asked_price::AskedPrice;
use super::date::Date;
use super::line_tax::LineTax;
use super::number::Count;
use super::price::Price;
use super::quantity::{Duration, Share};
use super::reader::{Marked, Reader, Value, record, words};
use super::shape::Shape;
use super::text::{JobNumber, Text};
use super::vocabulary::{AnsweredBy, OptionKind, YesNo};
use super::yaml::{Content, Node};

words! {
    /// Whether a part was used before.
    "state of a part" pub enum PartState {
        /// Never used.
        New = "new",
        /// Used before.
        Used = "used",
        /// Used before and made good.
        Reconditioned = "reconditioned",
    }
}

words! {
    /// What a discount is taken from.
    "part of a bill" pub enum TakenFrom {
        /// Parts and work.
        All = "all",
        /// Work alone.
        Labour = "labour",
        /// Parts alone.
        Parts = "parts",
    }
}

words! {
    /// Who bears the price.
    "kind of bill" pub enum BillKind {
        /// The customer.
        Charged = "charged",
        /// The workshop, under its guarantee on an earlier repair.
        Guarantee = "guarantee",
        /// The workshop, without having to.
        Goodwill = "goodwill",
    }
}

words! {
    /// A tax scheme of one job; whether it may be used: check local rules.
    "tax scheme" pub enum TaxScheme {
        /// The buyer, a business, accounts for the tax.
        ReverseCharge = "reverse-charge",
        /// Tax is due on the margin alone and not shown.
        MarginScheme = "margin-scheme",
    }
}

record! {
    /// A part with its price.
    pub struct PartLine {
        /// What it is; a name of the price list if no price is given.
        what: Text, "bearing 6804-2RS";
        /// How many; one if nothing is said.
        quantity: Option<Count>, "2";
        /// Price of one; without it, that of the price list (`parts.yaml`).
        price: Option<Marked<Price>>, "£9.80";
        /// Whether it is new, used or reconditioned.
        state: Option<PartState>, "reconditioned";
        /// Its tax, if it is not the workshop's usual: `none`, `all`, a rate, a tax's name.
        tax: Option<Marked<LineTax>>, "5 %";
        /// Surcharge for each old part, given back when that part comes back.
        core_charge: Option<Marked<Price>>, "£40.00";
        /// Day on which the old parts came back and the surcharge was refunded.
        core_returned: Option<Marked<Date>>, "2026-03-20";
    }
}

record! {
    /// Working time at one rate.
    pub struct LabourLine {
        /// How long.
        time: Marked<Duration>, "60 min";
        /// Which of the workshop's further hourly rates; the usual one if nothing is said.
        rate: Option<Marked<Text>>, "electronics";
        /// What was done in that time.
        what as "for": Option<Text>, "soldering at the circuit board";
        /// Its tax, if it is not the workshop's usual: `none`, `all`, a rate, a tax's name.
        tax: Option<Marked<LineTax>>, "none";
    }
}

/// Working time: one length, or lines at several rates.
#[derive(Clone, Debug, Default)]
pub struct Labour {
    /// Its lines, in their order.
    pub lines: Vec<LabourLine>,
}

impl Value for Labour {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        let lines = match &node.content {
            Content::List(items) => {
                items.iter().map(|item| LabourLine::read(item, reader)).collect()
            }
            Content::Map(_) => vec![LabourLine::read(node, reader)],
            _ => vec![LabourLine { time: Value::read(node, reader), ..LabourLine::default() }],
        };
        Self { lines }
    }

    fn shape() -> Shape {
        Shape::Either(vec![
            Duration::shape(),
            LabourLine::shape(),
            Shape::List(Box::new(LabourLine::shape())),
        ])
    }
}

record! {
    /// A fee with a tax of its own.
    pub struct FeeFields {
        /// The fee.
        price: Marked<Price>, "£8.50";
        /// Its tax, if it is not the workshop's usual: `none`, `all`, a rate, a tax's name.
        tax: Option<Marked<LineTax>>, "none";
    }
}

/// A fee: a price, or a block with its tax.
#[derive(Clone, Debug, Default)]
pub struct Fee {
    /// The fee.
    pub price: Marked<Price>,
    /// Its tax, if it is not the usual one.
    pub tax: Option<Marked<LineTax>>,
}

impl Value for Fee {
    fn read(node: &Node, reader: &mut Reader<'_>) -> Self {
        match &node.content {
            Content::Map(_) => {
                let FeeFields { price, tax } = FeeFields::read(node, reader);
                Self { price, tax }
            }
            _ => Self { price: Value::read(node, reader), tax: None },
        }
    }

    fn shape() -> Shape {
        Shape::Either(vec![Price::shape(), FeeFields::shape()])
    }
}

record! {
    /// A choice that is offered to the owner.
    pub struct Offer {
        /// Which one.
        kind: OptionKind, "overhaul";
        /// A price, if it does not come from parts and labour: fixed, from-to, or at most.
        price: Option<Marked<AskedPrice>>, "£420.00";
        /// Tax on that price, if it is not the workshop's usual.
        tax: Option<Marked<LineTax>>, "all";
        /// Parts it needs.
        parts: Vec<PartLine>, "[{what: bearing 6804-2RS, quantity: 2, price: £9.80}]" => AsNoted;
        /// Working time it needs.
        labour: Option<Labour>, "150 min" => AsNoted;
        /// Postage that is charged with it.
        postage: Option<Fee>, "£8.50";
        /// Days until the unit can go back.
        days: Option<Count>, "9";
        /// What it leaves unsolved.
        remaining was "leaves": Option<Text>, "The worn ring gear stays in";
        /// Months of guarantee on it, if they are not those of the workshop's own.
        guarantee_months: Option<Count>, "24" => OptionsLetter;
        /// Last day on which its price holds, if it is not that of all.
        valid_to: Option<Marked<Date>>, "2026-03-31";
    }
}

record! {
    /// What is taken off the price of the work: an amount or a share of it; never off postage or fees.
    pub struct Discount {
        /// An amount.
        amount: Option<Marked<Price>>, "£20.00";
        /// A share of what it is taken from.
        share: Option<Marked<Share>>, "10 %";
        /// What it is taken from: parts and work if nothing is said.
        on: Option<TakenFrom>, "labour";
        /// Why.
        reason: Option<Text>, "second repair this year";
    }
}

record! {
    /// What the owner agreed to beyond the price of their choice.
    pub struct Overrun {
        /// The most that it may be more; without it, all of it was agreed.
        up_to: Option<Marked<Price>>, "£25.00" => AsNoted;
        /// When they agreed.
        agreed: Marked<Date>, "2026-03-08";
        /// How they agreed.
        via was "by": Option<AnsweredBy>, "phone";
        /// What for.
        note: Option<Text>, "A second lip seal, which the first plan did not have";
    }
}

record! {
    /// How the job is billed and paid.
    pub struct Billing {
        /// Who bears the price: the customer if nothing is said.
        kind: Option<Marked<BillKind>>, "guarantee" => Decides;
        /// The earlier job whose guarantee it is under.
        earlier_job: Option<JobNumber>, "HD-2507";
        /// Day of that guarantee: when the earlier repair went back.
        guarantee_of: Option<Marked<Date>>, "2025-10-03";
        /// Why it is billed in this way.
        reason: Option<Text>, "The seal that we fitted in October leaked";
        /// Fee for looking into it; what a job without a repair is billed.
        inspection: Option<Fee>, "£35.00";
        /// What that fee covers beyond the parts that were examined.
        inspected: Option<Text>, "one hour on the bench";
        /// Whether the fee is credited against a repair.
        inspection_credited: Option<YesNo>, "yes" => Decides;
        /// A tax scheme of this job alone.
        scheme: Option<Marked<TaxScheme>>, "reverse-charge";
        /// The buyer's tax number.
        buyer_number: Option<Text>, "XX 000000000";
        /// Day on which it was paid in full.
        paid: Option<Marked<Date>>, "2026-03-11";
        /// How it was paid.
        paid_by: Option<Text>, "card";
    }
}
