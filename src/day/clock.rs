//! When the crane is done: the minutes of each step as a spread, put together exactly.
//!
//! A spread gives each whole minute its chance. Steps that vary independently add by convolution; waiting for a carrier and taking a break are
//! exact too, because the chance of each minute is known. No random numbers.

/// The chance of each whole minute, from `from_min` on. The chances sum to 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Spread {
    from_min: u32,
    chance: Vec<f64>,
}

/// Low, likely and high, whole minutes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Band {
    /// At best.
    pub low: u32,
    /// As a rule.
    pub likely: u32,
    /// At worst.
    pub high: u32,
}

/// Share of a triangular spread below `x`, for `low < high`.
///
/// `F = (x−a)²/((b−a)(c−a))` up to the mode c, `1 − (b−x)²/((b−a)(b−c))` beyond it. Source: Evans, Hastings, Peacock, Statistical Distributions, ch. 40
/// (from memory).
fn triangle_below(x: f64, low: f64, likely: f64, high: f64) -> f64 {
    if x <= low {
        0.0
    } else if x >= high {
        1.0
    } else if x <= likely {
        (x - low) * (x - low) / ((high - low) * (likely - low))
    } else {
        1.0 - (high - x) * (high - x) / ((high - low) * (high - likely))
    }
}

impl Spread {
    /// One minute for certain.
    pub fn certain(minute: u32) -> Self {
        Self {
            from_min: minute,
            chance: vec![1.0],
        }
    }

    /// The triangular spread of a band, each minute with the share from half a minute before to half a minute after it. Low, likely and high are
    /// taken in order of size.
    pub fn triangle(band: Band) -> Self {
        let mut sorted = [band.low, band.likely, band.high];
        sorted.sort_unstable();
        let [low, likely, high] = sorted;
        if low == high {
            return Self::certain(low);
        }
        let below = |x: f64| triangle_below(x, f64::from(low), f64::from(likely), f64::from(high));
        let chance = (low..=high).map(|minute| below(f64::from(minute) + 0.5) - below(f64::from(minute) - 0.5));
        Self {
            from_min: low,
            chance: chance.collect(),
        }
    }

    /// One after the other: the convolution of the two.
    #[must_use]
    pub fn then(&self, next: &Self) -> Self {
        let mut chance = vec![0.0; self.chance.len() + next.chance.len() - 1];
        for (i, a) in self.chance.iter().enumerate() {
            for (j, b) in next.chance.iter().enumerate() {
                chance[i + j] += a * b;
            }
        }
        Self {
            from_min: self.from_min + next.from_min,
            chance,
        }
    }

    /// Not before that minute: what is earlier waits until then.
    #[must_use]
    pub fn not_before(&self, minute: u32) -> Self {
        let early = (minute.saturating_sub(self.from_min) as usize).min(self.chance.len());
        if early == 0 {
            return self.clone();
        }
        let waiting: f64 = self.chance[..early].iter().sum();
        let mut chance = self.chance[early..].to_vec();
        match chance.first_mut() {
            Some(first) => *first += waiting,
            None => chance.push(waiting),
        }
        Self {
            from_min: minute,
            chance,
        }
    }

    /// The first minute by which at least that share is done; the share from 0 to 1.
    pub fn quantile(&self, share: f64) -> u32 {
        let mut sum = 0.0;
        for (at, chance) in self.chance.iter().enumerate() {
            sum += chance;
            // sums of many small shares end a hair's breadth below 1
            if sum >= share - 1e-12 {
                return self.from_min + at as u32;
            }
        }
        self.from_min + self.chance.len().saturating_sub(1) as u32
    }

    /// The chance of being done by that minute.
    pub fn by(&self, minute: u32) -> f64 {
        let until = (minute + 1).saturating_sub(self.from_min) as usize;
        self.chance.iter().take(until).sum::<f64>().min(1.0)
    }

    /// The mean, minutes.
    pub fn mean(&self) -> f64 {
        let terms = self.chance.iter().enumerate();
        terms
            .map(|(at, chance)| (f64::from(self.from_min) + at as f64) * chance)
            .sum()
    }

    /// The band in which 8 days of 10 end, with the median as likely.
    pub fn band(&self) -> Band {
        Band {
            low: self.quantile(0.1),
            likely: self.quantile(0.5),
            high: self.quantile(0.9),
        }
    }

    /// The part of the spread that ended before a minute, and the part that did not; neither sums to 1.
    fn split(&self, minute: u32) -> (Self, Self) {
        let early = (minute.saturating_sub(self.from_min) as usize).min(self.chance.len());
        let (before, after) = self.chance.split_at(early);
        let part = |from_min: u32, chance: &[f64]| Self {
            from_min,
            chance: if chance.is_empty() { vec![0.0] } else { chance.to_vec() },
        };
        (part(self.from_min, before), part(self.from_min + early as u32, after))
    }

    fn later(mut self, minutes: u32) -> Self {
        self.from_min += minutes;
        self
    }

    /// The two parts of one spread together.
    fn with(&self, other: &Self) -> Self {
        let from_min = self.from_min.min(other.from_min);
        let end = |s: &Self| s.from_min as usize + s.chance.len();
        let mut chance = vec![0.0; end(self).max(end(other)) - from_min as usize];
        for part in [self, other] {
            for (at, share) in part.chance.iter().enumerate() {
                chance[(part.from_min - from_min) as usize + at] += share;
            }
        }
        Self { from_min, chance }
    }
}

/// One step of the crane's clock.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// How long it takes.
    pub takes: Band,
    /// It cannot begin before that minute of the day: a carrier comes then.
    pub not_before_min: Option<u32>,
}

/// A break: taken at the first end of a step from its minute of the day on, so never in the middle of a lift.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Pause {
    /// From when on, minutes from midnight.
    pub at_min: u32,
    /// How long.
    pub takes_min: u32,
}

/// When each step begins and ends, minutes from midnight.
#[derive(Clone, Debug, PartialEq)]
pub struct Clock {
    /// When each step begins, in the order given.
    pub begins: Vec<Spread>,
    /// When each step ends.
    pub ends: Vec<Spread>,
}

/// Runs the steps one after the other from a minute of the day on, with the breaks in their order.
///
/// Each spread is kept apart by how many breaks were taken, so that a break is taken exactly once on every course of the day.
pub fn run(start_min: u32, works: &[Work], pauses: &[Pause]) -> Clock {
    let mut by_pauses: Vec<Option<Spread>> = vec![None; pauses.len() + 1];
    by_pauses[0] = Some(Spread::certain(start_min));
    let (mut begins, mut ends) = (Vec::new(), Vec::new());
    for work in works {
        rest(&mut by_pauses, pauses);
        let takes = Spread::triangle(work.takes);
        for spread in by_pauses.iter_mut().flatten() {
            if let Some(minute) = work.not_before_min {
                *spread = spread.not_before(minute);
            }
        }
        begins.push(together(&by_pauses));
        for spread in by_pauses.iter_mut().flatten() {
            *spread = spread.then(&takes);
        }
        ends.push(together(&by_pauses));
    }
    Clock { begins, ends }
}

/// Takes the breaks whose time has come.
fn rest(by_pauses: &mut [Option<Spread>], pauses: &[Pause]) {
    for (taken, pause) in pauses.iter().enumerate() {
        let Some(spread) = by_pauses[taken].take() else {
            continue;
        };
        let (before, due) = spread.split(pause.at_min);
        by_pauses[taken] = Some(before);
        let rested = due.later(pause.takes_min);
        by_pauses[taken + 1] = Some(match &by_pauses[taken + 1] {
            Some(other) => other.with(&rested),
            None => rested,
        });
    }
}

fn together(by_pauses: &[Option<Spread>]) -> Spread {
    let mut parts = by_pauses.iter().flatten();
    let first = parts.next().cloned().unwrap_or_else(|| Spread::certain(0));
    parts.fold(first, |all, part| all.with(part))
}
