// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/walkroundlists.h"

namespace ramplight {

namespace {

constexpr std::array viewColumns{
    Column<WalkViewRow>{"viewId", cell<&WalkViewRow::viewId>},
    Column<WalkViewRow>{"title", cell<&WalkViewRow::title>},
    Column<WalkViewRow>{"places", cell<&WalkViewRow::places>},
    Column<WalkViewRow>{"unseen", cell<&WalkViewRow::unseen>},
    Column<WalkViewRow>{"chosen", cell<&WalkViewRow::chosen>},
};

constexpr std::array walkPlaceColumns{
    Column<WalkPlaceRow>{"placeId", cell<&WalkPlaceRow::placeId>},
    Column<WalkPlaceRow>{"title", cell<&WalkPlaceRow::title>},
    Column<WalkPlaceRow>{"mark", cell<&WalkPlaceRow::mark>},
    Column<WalkPlaceRow>{"side", cell<&WalkPlaceRow::side>},
    Column<WalkPlaceRow>{"order", cell<&WalkPlaceRow::order>},
    Column<WalkPlaceRow>{"fields", cell<&WalkPlaceRow::fields>},
    Column<WalkPlaceRow>{"chosen", cell<&WalkPlaceRow::chosen>},
};

constexpr std::array findingColumns{
    Column<WalkFindingRow>{"findingId", cell<&WalkFindingRow::findingId>},
    Column<WalkFindingRow>{"placeId", cell<&WalkFindingRow::placeId>},
    Column<WalkFindingRow>{"words", cell<&WalkFindingRow::words>},
    Column<WalkFindingRow>{"byWords", cell<&WalkFindingRow::byWords>},
};

constexpr std::array workColumns{
    Column<WalkWorkRow>{"operationId", cell<&WalkWorkRow::operationId>},
    Column<WalkWorkRow>{"title", cell<&WalkWorkRow::title>},
    Column<WalkWorkRow>{"placeId", cell<&WalkWorkRow::placeId>},
    Column<WalkWorkRow>{"whyWords", cell<&WalkWorkRow::whyWords>},
    Column<WalkWorkRow>{"minutesWords", cell<&WalkWorkRow::minutesWords>},
    Column<WalkWorkRow>{"safety", cell<&WalkWorkRow::safety>},
    Column<WalkWorkRow>{"fresh", cell<&WalkWorkRow::fresh>},
};

constexpr std::array skillColumns{
    Column<WalkSkillRow>{"skill", cell<&WalkSkillRow::skill>},
    Column<WalkSkillRow>{"title", cell<&WalkSkillRow::title>},
    Column<WalkSkillRow>{"minutesWords", cell<&WalkSkillRow::minutesWords>},
};

} // namespace

WalkViews::WalkViews(QObject* parent)
    : ListBase(std::make_unique<RowTable<WalkViewRow>>(viewColumns), parent)
{
}

void WalkViews::setRows(std::vector<WalkViewRow> rows)
{
    replace(std::move(rows));
}

WalkPlaces::WalkPlaces(QObject* parent)
    : ListBase(std::make_unique<RowTable<WalkPlaceRow>>(walkPlaceColumns), parent)
{
}

void WalkPlaces::setRows(std::vector<WalkPlaceRow> rows)
{
    replace(std::move(rows));
}

WalkFindings::WalkFindings(QObject* parent)
    : ListBase(std::make_unique<RowTable<WalkFindingRow>>(findingColumns), parent)
{
}

void WalkFindings::setRows(std::vector<WalkFindingRow> rows)
{
    replace(std::move(rows));
}

WalkWork::WalkWork(QObject* parent)
    : ListBase(std::make_unique<RowTable<WalkWorkRow>>(workColumns), parent)
{
}

void WalkWork::setRows(std::vector<WalkWorkRow> rows)
{
    replace(std::move(rows));
}

WalkSkills::WalkSkills(QObject* parent)
    : ListBase(std::make_unique<RowTable<WalkSkillRow>>(skillColumns), parent)
{
}

void WalkSkills::setRows(std::vector<WalkSkillRow> rows)
{
    replace(std::move(rows));
}

} // namespace ramplight
