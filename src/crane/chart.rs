//! Rating charts (placeholder until the reading of charts lands).
use crate::quantity::{Entry, Length, Mass, Said, Unit};
use serde::{Deserialize, Serialize};

#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Deductions {
    pub block: bool,
    pub rope: bool,
    pub rigging: bool,
    pub stowed: bool,
}
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Configuration {
    pub counterweight: Entry<Mass>,
    pub outriggers: String,
    pub sector: String,
}
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ChartRow {
    pub radius: String,
    pub cells: Vec<String>,
}
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RatingChart {
    pub id: String,
    pub name: String,
    pub configuration: Configuration,
    pub said: Said,
    pub radius_unit: Unit,
    pub boom_unit: Unit,
    pub capacity_unit: Unit,
    pub booms: Vec<String>,
    pub rows: Vec<ChartRow>,
    pub footnotes: Vec<String>,
    pub includes: Deductions,
    pub confirmed: Vec<(usize, usize)>,
    pub locked: bool,
}
#[derive(Clone, Debug, PartialEq)]
pub struct ChartIssue {
    pub text: String,
    pub blocks: bool,
}
impl core::fmt::Display for ChartIssue {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.text)
    }
}
#[derive(Clone, Debug, PartialEq)]
pub struct RatingTable {
    radii: Vec<f64>,
    booms: Vec<f64>,
    kg: Vec<Vec<Option<f64>>>,
}
pub struct RatedAt {
    pub row: Length,
    pub mass: Mass,
    pub next_row: Option<(Length, Option<Mass>)>,
}
impl RatingChart {
    pub fn table(&self) -> (Option<RatingTable>, Vec<ChartIssue>) {
        let num = |s: &str| s.parse::<f64>().ok();
        let booms = self
            .booms
            .iter()
            .filter_map(|b| num(b))
            .map(|v| self.boom_unit.to_si(v))
            .collect();
        let radii = self
            .rows
            .iter()
            .filter_map(|r| num(&r.radius))
            .map(|v| self.radius_unit.to_si(v))
            .collect();
        let kg = self
            .rows
            .iter()
            .map(|r| {
                r.cells
                    .iter()
                    .map(|c| num(c).map(|v| self.capacity_unit.to_si(v)))
                    .collect()
            })
            .collect();
        (Some(RatingTable { radii, booms, kg }), vec![])
    }
}
impl RatingTable {
    pub fn radii_m(&self) -> &[f64] {
        &self.radii
    }
    pub fn booms_m(&self) -> &[f64] {
        &self.booms
    }
    pub fn at(&self, radius: Length, boom: Length) -> Result<RatedAt, String> {
        let i = self
            .radii
            .iter()
            .position(|r| *r >= radius.to_m() - 1e-9)
            .ok_or_else(|| {
                format!(
                    "not on the chart: {:.2} m, chart ends {:.2} m",
                    radius.to_m(),
                    self.radii.last().unwrap_or(&0.0)
                )
            })?;
        let j = self
            .booms
            .iter()
            .position(|b| *b >= boom.to_m() - 1e-9)
            .ok_or("boom not on chart")?;
        let cell = |i: usize| self.kg.get(i).and_then(|r| r.get(j).copied().flatten()).map(Mass::kg);
        let mass = cell(i).ok_or_else(|| format!("blank in the chart: not allowed at {:.2} m", radius.to_m()))?;
        Ok(RatedAt {
            row: Length::m(self.radii[i]),
            mass,
            next_row: self.radii.get(i + 1).map(|r| (Length::m(*r), cell(i + 1))),
        })
    }
}
