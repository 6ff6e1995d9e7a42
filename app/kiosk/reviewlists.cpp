// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/reviewlists.h"

namespace ramplight {

namespace {

constexpr std::array stageColumns{
    Column<ReviewStageRow>{"stage", cell<&ReviewStageRow::stage>},
    Column<ReviewStageRow>{"title", cell<&ReviewStageRow::title>},
    Column<ReviewStageRow>{"open", cell<&ReviewStageRow::open>},
    Column<ReviewStageRow>{"chosen", cell<&ReviewStageRow::chosen>},
};

constexpr std::array draftColumns{
    Column<ReviewDraftRow>{"draft", cell<&ReviewDraftRow::draft>},
    Column<ReviewDraftRow>{"placeWords", cell<&ReviewDraftRow::placeWords>},
    Column<ReviewDraftRow>{"whatWords", cell<&ReviewDraftRow::whatWords>},
    Column<ReviewDraftRow>{"todoWords", cell<&ReviewDraftRow::todoWords>},
    Column<ReviewDraftRow>{"momentWords", cell<&ReviewDraftRow::momentWords>},
};

constexpr std::array depthColumns{
    Column<ReviewDepthRow>{"placeId", cell<&ReviewDepthRow::placeId>},
    Column<ReviewDepthRow>{"title", cell<&ReviewDepthRow::title>},
    Column<ReviewDepthRow>{"saidWords", cell<&ReviewDepthRow::saidWords>},
    Column<ReviewDepthRow>{"whole", cell<&ReviewDepthRow::whole>},
    Column<ReviewDepthRow>{"waits", cell<&ReviewDepthRow::waits>},
};

constexpr std::array placeColumns{
    Column<ReviewPlaceRow>{"placeId", cell<&ReviewPlaceRow::placeId>},
    Column<ReviewPlaceRow>{"title", cell<&ReviewPlaceRow::title>},
    Column<ReviewPlaceRow>{"safety", cell<&ReviewPlaceRow::safety>},
};

} // namespace

ReviewStages::ReviewStages(QObject* parent)
    : ListBase(std::make_unique<RowTable<ReviewStageRow>>(stageColumns), parent)
{
}

void ReviewStages::setRows(std::vector<ReviewStageRow> rows)
{
    replace(std::move(rows));
}

ReviewDrafts::ReviewDrafts(QObject* parent)
    : ListBase(std::make_unique<RowTable<ReviewDraftRow>>(draftColumns), parent)
{
}

void ReviewDrafts::setRows(std::vector<ReviewDraftRow> rows)
{
    replace(std::move(rows));
}

ReviewDepths::ReviewDepths(QObject* parent)
    : ListBase(std::make_unique<RowTable<ReviewDepthRow>>(depthColumns), parent)
{
}

void ReviewDepths::setRows(std::vector<ReviewDepthRow> rows)
{
    replace(std::move(rows));
}

ReviewPlaces::ReviewPlaces(QObject* parent)
    : ListBase(std::make_unique<RowTable<ReviewPlaceRow>>(placeColumns), parent)
{
}

void ReviewPlaces::setRows(std::vector<ReviewPlaceRow> rows)
{
    replace(std::move(rows));
}

} // namespace ramplight
