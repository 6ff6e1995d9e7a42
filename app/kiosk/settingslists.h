// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/listbase.h"

// The lists of the settings screens. GUI thread.
namespace ramplight {

struct ToolRow
{
    int toolId = 0;
    QString number;
    QString kindWords;
    QString dueWords; ///< "12 May 2031", "overdue since 12 May 2031"
    bool overdue = false;
    bool soon = false; ///< within 30 days
    bool active = true;

    [[nodiscard]] int key() const { return toolId; }
    friend bool operator==(const ToolRow&, const ToolRow&) = default;
};

/// A bound and whose it is.
struct LimitRow
{
    QString rowId;
    QString title;
    QString boundWords; ///< "at least 3.0 mm"
    QString ownerWords; ///< "house", "law"
    QString source;
    bool own = false;     ///< the house may change it
    bool changed = false; ///< it is not as shipped
    QString valueText;    ///< digits, to edit
    QString unitWords;
    int decimals = 0;

    [[nodiscard]] QString key() const { return rowId; }
    friend bool operator==(const LimitRow&, const LimitRow&) = default;
};

struct QualificationRow
{
    QString qualificationId;
    QString title;
    QString until;      ///< ISO; empty: not held
    QString untilWords; ///< "until 12 May 2031", "over since 12 May 2031", "not held"
    bool over = false;

    [[nodiscard]] QString key() const { return qualificationId; }
    friend bool operator==(const QualificationRow&, const QualificationRow&) = default;
};

/// Days on which somebody is away.
struct AwayRow
{
    QString first;     ///< ISO
    QString spanWords; ///< "12 May 2031 to 16 May 2031"
    QString daysWords; ///< "5 days"

    [[nodiscard]] QString key() const { return first; }
    friend bool operator==(const AwayRow&, const AwayRow&) = default;
};

struct KindRow
{
    QString kindId;
    QString title;
    QString skillWords; ///< heading it stands under
    QString minutesWords;
    QString materialWords; ///< "12.50 GBP", "not entered"
    bool safety = false;
    bool changed = false; ///< by the house

    [[nodiscard]] QString key() const { return kindId; }
    friend bool operator==(const KindRow&, const KindRow&) = default;
};

struct SiteChangeRow
{
    int changeId = 0;
    QString title;   ///< "House rules"
    QString detail;  ///< what became of what
    QString byWords; ///< "changed by Orla on Thu 4 May 2031, 14:00"

    [[nodiscard]] int key() const { return changeId; }
    friend bool operator==(const SiteChangeRow&, const SiteChangeRow&) = default;
};

struct FileRow
{
    QString path;
    QString name;
    QString whenWords;

    [[nodiscard]] QString key() const { return path; }
    friend bool operator==(const FileRow&, const FileRow&) = default;
};

class ToolsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit ToolsModel(QObject* parent = nullptr);
    void setRows(std::vector<ToolRow> rows);
    [[nodiscard]] const std::vector<ToolRow>& rows() const;
};

class LimitsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit LimitsModel(QObject* parent = nullptr);
    void setRows(std::vector<LimitRow> rows);
    [[nodiscard]] const std::vector<LimitRow>& rows() const;
};

class QualificationsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit QualificationsModel(QObject* parent = nullptr);
    void setRows(std::vector<QualificationRow> rows);
    [[nodiscard]] const std::vector<QualificationRow>& rows() const;
};

class AwayModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit AwayModel(QObject* parent = nullptr);
    void setRows(std::vector<AwayRow> rows);
    [[nodiscard]] const std::vector<AwayRow>& rows() const;
};

class KindsModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit KindsModel(QObject* parent = nullptr);
    void setRows(std::vector<KindRow> rows);
    [[nodiscard]] const std::vector<KindRow>& rows() const;
};

class SiteChangesModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit SiteChangesModel(QObject* parent = nullptr);
    void setRows(std::vector<SiteChangeRow> rows);
    [[nodiscard]] const std::vector<SiteChangeRow>& rows() const;
};

class FilesModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit FilesModel(QObject* parent = nullptr);
    void setRows(std::vector<FileRow> rows);
    [[nodiscard]] const std::vector<FileRow>& rows() const;
};

} // namespace ramplight
