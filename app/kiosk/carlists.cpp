// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/carlists.h"

namespace ramplight {

namespace {

constexpr std::array operationsModelColumns{
    Column<OperationRow>{"operationId", cell<&OperationRow::operationId>},
    Column<OperationRow>{"title", cell<&OperationRow::title>},
    Column<OperationRow>{"placeId", cell<&OperationRow::placeId>},
    Column<OperationRow>{"placeWords", cell<&OperationRow::placeWords>},
    Column<OperationRow>{"band", cell<&OperationRow::band>},
    Column<OperationRow>{"stateWord", cell<&OperationRow::stateWord>},
    Column<OperationRow>{"open", cell<&OperationRow::open>},
    Column<OperationRow>{"safety", cell<&OperationRow::safety>},
    Column<OperationRow>{"check", cell<&OperationRow::check>},
    Column<OperationRow>{"skill", cell<&OperationRow::skill>},
    Column<OperationRow>{"skillWords", cell<&OperationRow::skillWords>},
    Column<OperationRow>{"who", cell<&OperationRow::who>},
    Column<OperationRow>{"minutesWords", cell<&OperationRow::minutesWords>},
    Column<OperationRow>{"whyWords", cell<&OperationRow::whyWords>},
    Column<OperationRow>{"notYetWords", cell<&OperationRow::notYetWords>},
    Column<OperationRow>{"situationWords", cell<&OperationRow::situationWords>},
    Column<OperationRow>{"signedWords", cell<&OperationRow::signedWords>},
};

constexpr std::array findingsModelColumns{
    Column<FindingRow>{"findingId", cell<&FindingRow::findingId>},
    Column<FindingRow>{"placeId", cell<&FindingRow::placeId>},
    Column<FindingRow>{"words", cell<&FindingRow::words>},
    Column<FindingRow>{"quote", cell<&FindingRow::quote>},
    Column<FindingRow>{"byWords", cell<&FindingRow::byWords>},
    Column<FindingRow>{"stands", cell<&FindingRow::stands>},
    Column<FindingRow>{"corrected", cell<&FindingRow::corrected>},
    Column<FindingRow>{"correctedWords", cell<&FindingRow::correctedWords>},
    Column<FindingRow>{"undecided", cell<&FindingRow::undecided>},
    Column<FindingRow>{"disclosed", cell<&FindingRow::disclosed>},
    Column<FindingRow>{"answerWords", cell<&FindingRow::answerWords>},
    Column<FindingRow>{"photoUrls", cell<&FindingRow::photoUrls>},
};

constexpr std::array holdsModelColumns{
    Column<HoldRow>{"holdId", cell<&HoldRow::holdId>},
    Column<HoldRow>{"kind", cell<&HoldRow::kind>},
    Column<HoldRow>{"words", cell<&HoldRow::words>},
    Column<HoldRow>{"safety", cell<&HoldRow::safety>},
    Column<HoldRow>{"operationId", cell<&HoldRow::operationId>},
    Column<HoldRow>{"findingId", cell<&HoldRow::findingId>},
    Column<HoldRow>{"placeId", cell<&HoldRow::placeId>},
    Column<HoldRow>{"opensKind", cell<&HoldRow::opensKind>},
    Column<HoldRow>{"wayWords", cell<&HoldRow::wayWords>},
};

constexpr std::array historyModelColumns{
    Column<HistoryRow>{"seq", cell<&HistoryRow::seq>},
    Column<HistoryRow>{"dayWords", cell<&HistoryRow::dayWords>},
    Column<HistoryRow>{"timeWords", cell<&HistoryRow::timeWords>},
    Column<HistoryRow>{"who", cell<&HistoryRow::who>},
    Column<HistoryRow>{"what", cell<&HistoryRow::what>},
    Column<HistoryRow>{"detail", cell<&HistoryRow::detail>},
    Column<HistoryRow>{"operationId", cell<&HistoryRow::operationId>},
};

constexpr std::array photosModelColumns{
    Column<PhotoRow>{"photoKey", cell<&PhotoRow::photoKey>},
    Column<PhotoRow>{"photoId", cell<&PhotoRow::photoId>},
    Column<PhotoRow>{"url", cell<&PhotoRow::url>},
    Column<PhotoRow>{"fullUrl", cell<&PhotoRow::fullUrl>},
    Column<PhotoRow>{"moment", cell<&PhotoRow::moment>},
    Column<PhotoRow>{"momentWords", cell<&PhotoRow::momentWords>},
    Column<PhotoRow>{"placeWords", cell<&PhotoRow::placeWords>},
    Column<PhotoRow>{"byWords", cell<&PhotoRow::byWords>},
    Column<PhotoRow>{"operationId", cell<&PhotoRow::operationId>},
    Column<PhotoRow>{"findingId", cell<&PhotoRow::findingId>},
    Column<PhotoRow>{"goneWords", cell<&PhotoRow::goneWords>},
};

constexpr std::array photoNeedsModelColumns{
    Column<PhotoNeedRow>{"needId", cell<&PhotoNeedRow::needId>},
    Column<PhotoNeedRow>{"moment", cell<&PhotoNeedRow::moment>},
    Column<PhotoNeedRow>{"rank", cell<&PhotoNeedRow::rank>},
    Column<PhotoNeedRow>{"momentWords", cell<&PhotoNeedRow::momentWords>},
    Column<PhotoNeedRow>{"title", cell<&PhotoNeedRow::title>},
    Column<PhotoNeedRow>{"present", cell<&PhotoNeedRow::present>},
    Column<PhotoNeedRow>{"url", cell<&PhotoNeedRow::url>},
    Column<PhotoNeedRow>{"whenWords", cell<&PhotoNeedRow::whenWords>},
    Column<PhotoNeedRow>{"goneWords", cell<&PhotoNeedRow::goneWords>},
};

constexpr std::array segmentsModelColumns{
    Column<SpanRow>{"segmentId", cell<&SpanRow::segmentId>},
    Column<SpanRow>{"personId", cell<&SpanRow::personId>},
    Column<SpanRow>{"who", cell<&SpanRow::who>},
    Column<SpanRow>{"spanWords", cell<&SpanRow::spanWords>},
    Column<SpanRow>{"minutes", cell<&SpanRow::minutes>},
    Column<SpanRow>{"measured", cell<&SpanRow::measured>},
    Column<SpanRow>{"minutesWords", cell<&SpanRow::minutesWords>},
    Column<SpanRow>{"running", cell<&SpanRow::running>},
    Column<SpanRow>{"corrected", cell<&SpanRow::corrected>},
    Column<SpanRow>{"correctedWords", cell<&SpanRow::correctedWords>},
    Column<SpanRow>{"clockWords", cell<&SpanRow::clockWords>},
    Column<SpanRow>{"overlong", cell<&SpanRow::overlong>},
};

constexpr std::array readingsModelColumns{
    Column<ReadingRow>{"rowId", cell<&ReadingRow::rowId>},
    Column<ReadingRow>{"readingKey", cell<&ReadingRow::readingKey>},
    Column<ReadingRow>{"title", cell<&ReadingRow::title>},
    Column<ReadingRow>{"placeId", cell<&ReadingRow::placeId>},
    Column<ReadingRow>{"placeWords", cell<&ReadingRow::placeWords>},
    Column<ReadingRow>{"input", cell<&ReadingRow::input>},
    Column<ReadingRow>{"unitWords", cell<&ReadingRow::unitWords>},
    Column<ReadingRow>{"decimals", cell<&ReadingRow::decimals>},
    Column<ReadingRow>{"optional", cell<&ReadingRow::optional>},
    Column<ReadingRow>{"limitWords", cell<&ReadingRow::limitWords>},
    Column<ReadingRow>{"hasValue", cell<&ReadingRow::hasValue>},
    Column<ReadingRow>{"valueWords", cell<&ReadingRow::valueWords>},
    Column<ReadingRow>{"valueText", cell<&ReadingRow::valueText>},
    Column<ReadingRow>{"outcome", cell<&ReadingRow::outcome>},
    Column<ReadingRow>{"outcomeWords", cell<&ReadingRow::outcomeWords>},
    Column<ReadingRow>{"readingId", cell<&ReadingRow::readingId>},
    Column<ReadingRow>{"byWords", cell<&ReadingRow::byWords>},
    Column<ReadingRow>{"earlierWords", cell<&ReadingRow::earlierWords>},
    Column<ReadingRow>{"standsWords", cell<&ReadingRow::standsWords>},
    Column<ReadingRow>{"another", cell<&ReadingRow::another>},
    Column<ReadingRow>{"figureNeeded", cell<&ReadingRow::figureNeeded>},
    Column<ReadingRow>{"figureMissing", cell<&ReadingRow::figureMissing>},
    Column<ReadingRow>{"figureFrom", cell<&ReadingRow::figureFrom>},
    Column<ReadingRow>{"figureWords", cell<&ReadingRow::figureWords>},
    Column<ReadingRow>{"figureSource", cell<&ReadingRow::figureSource>},
    Column<ReadingRow>{"figureOpen", cell<&ReadingRow::figureOpen>},
    Column<ReadingRow>{"figureInUse", cell<&ReadingRow::figureInUse>},
    Column<ReadingRow>{"figureAnother", cell<&ReadingRow::figureAnother>},
    Column<ReadingRow>{"optionIds", cell<&ReadingRow::optionIds>},
    Column<ReadingRow>{"optionTitles", cell<&ReadingRow::optionTitles>},
    Column<ReadingRow>{"optionWords", cell<&ReadingRow::optionWords>},
    Column<ReadingRow>{"toolWords", cell<&ReadingRow::toolWords>},
    Column<ReadingRow>{"toolKind", cell<&ReadingRow::toolKind>},
    Column<ReadingRow>{"toolIds", cell<&ReadingRow::toolIds>},
    Column<ReadingRow>{"toolNumbers", cell<&ReadingRow::toolNumbers>},
    Column<ReadingRow>{"toolId", cell<&ReadingRow::toolId>},
};

constexpr std::array cautionsModelColumns{
    Column<CautionRow>{"cautionId", cell<&CautionRow::cautionId>},
    Column<CautionRow>{"words", cell<&CautionRow::words>},
};

template <class Row>
int countAt(const std::vector<Row>& rows, const QString& placeId)
{
    return placeId.isEmpty() ? static_cast<int>(rows.size())
                             : static_cast<int>(std::ranges::count(rows, placeId, &Row::placeId));
}

} // namespace

OperationsModel::OperationsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<OperationRow>>(operationsModelColumns), parent)
{
}

void OperationsModel::setRows(std::vector<OperationRow> rows)
{
    replace(std::move(rows));
}

int OperationsModel::countAt(const QString& placeId) const
{
    return ramplight::countAt(rows(), placeId);
}

const std::vector<OperationRow>& OperationsModel::rows() const
{
    return stored<OperationRow>();
}

FindingsModel::FindingsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<FindingRow>>(findingsModelColumns), parent)
{
}

void FindingsModel::setRows(std::vector<FindingRow> rows)
{
    replace(std::move(rows));
}

int FindingsModel::countAt(const QString& placeId) const
{
    return ramplight::countAt(rows(), placeId);
}

const std::vector<FindingRow>& FindingsModel::rows() const
{
    return stored<FindingRow>();
}

HoldsModel::HoldsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<HoldRow>>(holdsModelColumns), parent)
{
}

void HoldsModel::setRows(std::vector<HoldRow> rows)
{
    replace(std::move(rows));
}

const std::vector<HoldRow>& HoldsModel::rows() const
{
    return stored<HoldRow>();
}

HistoryModel::HistoryModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<HistoryRow>>(historyModelColumns), parent)
{
}

void HistoryModel::setRows(std::vector<HistoryRow> rows)
{
    replace(std::move(rows));
}

const std::vector<HistoryRow>& HistoryModel::rows() const
{
    return stored<HistoryRow>();
}

PhotosModel::PhotosModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<PhotoRow>>(photosModelColumns), parent)
{
}

void PhotosModel::setRows(std::vector<PhotoRow> rows)
{
    replace(std::move(rows));
}

const std::vector<PhotoRow>& PhotosModel::rows() const
{
    return stored<PhotoRow>();
}

PhotoNeedsModel::PhotoNeedsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<PhotoNeedRow>>(photoNeedsModelColumns), parent)
{
}

void PhotoNeedsModel::setRows(std::vector<PhotoNeedRow> rows)
{
    replace(std::move(rows));
}

const std::vector<PhotoNeedRow>& PhotoNeedsModel::rows() const
{
    return stored<PhotoNeedRow>();
}

SegmentsModel::SegmentsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<SpanRow>>(segmentsModelColumns), parent)
{
}

void SegmentsModel::setRows(std::vector<SpanRow> rows)
{
    replace(std::move(rows));
}

const std::vector<SpanRow>& SegmentsModel::rows() const
{
    return stored<SpanRow>();
}

ReadingsModel::ReadingsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<ReadingRow>>(readingsModelColumns), parent)
{
}

void ReadingsModel::setRows(std::vector<ReadingRow> rows)
{
    replace(std::move(rows));
}

const std::vector<ReadingRow>& ReadingsModel::rows() const
{
    return stored<ReadingRow>();
}

CautionsModel::CautionsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<CautionRow>>(cautionsModelColumns), parent)
{
}

void CautionsModel::setRows(std::vector<CautionRow> rows)
{
    replace(std::move(rows));
}

const std::vector<CautionRow>& CautionsModel::rows() const
{
    return stored<CautionRow>();
}

} // namespace ramplight
