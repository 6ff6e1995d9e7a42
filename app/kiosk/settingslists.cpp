// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/settingslists.h"

#include <array>

namespace ramplight {

namespace {

constexpr std::array toolRowColumns{
    Column<ToolRow>{"toolId", cell<&ToolRow::toolId>},
    Column<ToolRow>{"number", cell<&ToolRow::number>},
    Column<ToolRow>{"kindWords", cell<&ToolRow::kindWords>},
    Column<ToolRow>{"dueWords", cell<&ToolRow::dueWords>},
    Column<ToolRow>{"overdue", cell<&ToolRow::overdue>},
    Column<ToolRow>{"soon", cell<&ToolRow::soon>},
    Column<ToolRow>{"active", cell<&ToolRow::active>},
};

constexpr std::array limitRowColumns{
    Column<LimitRow>{"rowId", cell<&LimitRow::rowId>},
    Column<LimitRow>{"title", cell<&LimitRow::title>},
    Column<LimitRow>{"boundWords", cell<&LimitRow::boundWords>},
    Column<LimitRow>{"ownerWords", cell<&LimitRow::ownerWords>},
    Column<LimitRow>{"source", cell<&LimitRow::source>},
    Column<LimitRow>{"own", cell<&LimitRow::own>},
    Column<LimitRow>{"changed", cell<&LimitRow::changed>},
    Column<LimitRow>{"valueText", cell<&LimitRow::valueText>},
    Column<LimitRow>{"unitWords", cell<&LimitRow::unitWords>},
    Column<LimitRow>{"decimals", cell<&LimitRow::decimals>},
};

constexpr std::array qualificationRowColumns{
    Column<QualificationRow>{"qualificationId", cell<&QualificationRow::qualificationId>},
    Column<QualificationRow>{"title", cell<&QualificationRow::title>},
    Column<QualificationRow>{"until", cell<&QualificationRow::until>},
    Column<QualificationRow>{"untilWords", cell<&QualificationRow::untilWords>},
    Column<QualificationRow>{"over", cell<&QualificationRow::over>},
};

constexpr std::array awayRowColumns{
    Column<AwayRow>{"first", cell<&AwayRow::first>},
    Column<AwayRow>{"spanWords", cell<&AwayRow::spanWords>},
    Column<AwayRow>{"daysWords", cell<&AwayRow::daysWords>},
};

constexpr std::array kindRowColumns{
    Column<KindRow>{"kindId", cell<&KindRow::kindId>},
    Column<KindRow>{"title", cell<&KindRow::title>},
    Column<KindRow>{"skillWords", cell<&KindRow::skillWords>},
    Column<KindRow>{"minutesWords", cell<&KindRow::minutesWords>},
    Column<KindRow>{"materialWords", cell<&KindRow::materialWords>},
    Column<KindRow>{"safety", cell<&KindRow::safety>},
    Column<KindRow>{"changed", cell<&KindRow::changed>},
};

constexpr std::array siteChangeRowColumns{
    Column<SiteChangeRow>{"changeId", cell<&SiteChangeRow::changeId>},
    Column<SiteChangeRow>{"title", cell<&SiteChangeRow::title>},
    Column<SiteChangeRow>{"detail", cell<&SiteChangeRow::detail>},
    Column<SiteChangeRow>{"byWords", cell<&SiteChangeRow::byWords>},
};

constexpr std::array fileRowColumns{
    Column<FileRow>{"path", cell<&FileRow::path>},
    Column<FileRow>{"name", cell<&FileRow::name>},
    Column<FileRow>{"whenWords", cell<&FileRow::whenWords>},
};

} // namespace

ToolsModel::ToolsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<ToolRow>>(toolRowColumns), parent)
{
}

void ToolsModel::setRows(std::vector<ToolRow> rows)
{
    replace(std::move(rows));
}

const std::vector<ToolRow>& ToolsModel::rows() const
{
    return stored<ToolRow>();
}

LimitsModel::LimitsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<LimitRow>>(limitRowColumns), parent)
{
}

void LimitsModel::setRows(std::vector<LimitRow> rows)
{
    replace(std::move(rows));
}

const std::vector<LimitRow>& LimitsModel::rows() const
{
    return stored<LimitRow>();
}

QualificationsModel::QualificationsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<QualificationRow>>(qualificationRowColumns), parent)
{
}

void QualificationsModel::setRows(std::vector<QualificationRow> rows)
{
    replace(std::move(rows));
}

const std::vector<QualificationRow>& QualificationsModel::rows() const
{
    return stored<QualificationRow>();
}

AwayModel::AwayModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<AwayRow>>(awayRowColumns), parent)
{
}

void AwayModel::setRows(std::vector<AwayRow> rows)
{
    replace(std::move(rows));
}

const std::vector<AwayRow>& AwayModel::rows() const
{
    return stored<AwayRow>();
}

KindsModel::KindsModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<KindRow>>(kindRowColumns), parent)
{
}

void KindsModel::setRows(std::vector<KindRow> rows)
{
    replace(std::move(rows));
}

const std::vector<KindRow>& KindsModel::rows() const
{
    return stored<KindRow>();
}

SiteChangesModel::SiteChangesModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<SiteChangeRow>>(siteChangeRowColumns), parent)
{
}

void SiteChangesModel::setRows(std::vector<SiteChangeRow> rows)
{
    replace(std::move(rows));
}

const std::vector<SiteChangeRow>& SiteChangesModel::rows() const
{
    return stored<SiteChangeRow>();
}

FilesModel::FilesModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<FileRow>>(fileRowColumns), parent)
{
}

void FilesModel::setRows(std::vector<FileRow> rows)
{
    replace(std::move(rows));
}

const std::vector<FileRow>& FilesModel::rows() const
{
    return stored<FileRow>();
}

} // namespace ramplight
