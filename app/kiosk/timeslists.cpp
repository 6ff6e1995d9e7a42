// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/timeslists.h"

namespace ramplight {

namespace {

constexpr std::array weekColumns{
    Column<WeekRow>{"day", cell<&WeekRow::day>},
    Column<WeekRow>{"dayWords", cell<&WeekRow::dayWords>},
    Column<WeekRow>{"hoursWords", cell<&WeekRow::hoursWords>},
    Column<WeekRow>{"off", cell<&WeekRow::off>},
    Column<WeekRow>{"opens", cell<&WeekRow::opens>},
    Column<WeekRow>{"closes", cell<&WeekRow::closes>},
    Column<WeekRow>{"breakMinutes", cell<&WeekRow::breakMinutes>},
};

constexpr std::array extraColumns{
    Column<ExtraRow>{"extraId", cell<&ExtraRow::extraId>},
    Column<ExtraRow>{"dayWords", cell<&ExtraRow::dayWords>},
    Column<ExtraRow>{"hoursWords", cell<&ExtraRow::hoursWords>},
};

} // namespace

WeekModel::WeekModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<WeekRow>>(weekColumns), parent)
{
}

ExtraModel::ExtraModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<ExtraRow>>(extraColumns), parent)
{
}

} // namespace ramplight
