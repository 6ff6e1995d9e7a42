// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "record/csv.h"
#include "record/recordmodel.h"

namespace ramplight {

/// What was done, how long it took and what was found, a row each, of as many cars as are added.
/// Times are local to the house ("2031-05-04 14:10"); headings and states are the ids of the JSON
/// beside them, so that a spreadsheet's formulas hold in every language. Pure.
class ExportTables
{
public:
    ExportTables();

    void add(const RecordModel& car);
    [[nodiscard]] const CsvTable& operations() const { return m_operations; }
    [[nodiscard]] const CsvTable& minutes() const { return m_minutes; }
    [[nodiscard]] const CsvTable& findings() const { return m_findings; }

private:
    void addOperation(const RecordModel& car, const RecordOperation& operation);
    void addFinding(const RecordModel& car, const RecordFinding& finding);

    CsvTable m_operations;
    CsvTable m_minutes;
    CsvTable m_findings;
};

} // namespace ramplight
