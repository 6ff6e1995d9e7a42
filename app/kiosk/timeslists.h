// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/listbase.h"

#include <QtQmlIntegration>

// Lists of one person's own times. Roles are named as the rows' members. GUI thread.
namespace ramplight {

/// A day of a week.
struct WeekRow
{
    int day = 1; ///< Monday is 1
    QString dayWords;
    QString hoursWords; ///< "08:00 to 17:00, break 12:00 to 12:30", "off"
    bool off = false;
    int opens = 0; ///< local minutes; what it would be while it is off
    int closes = 0;
    int breakMinutes = 0;

    [[nodiscard]] int key() const { return day; }
    friend bool operator==(const WeekRow&, const WeekRow&) = default;
};

class WeekModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit WeekModel(QObject* parent = nullptr);
    void setRows(std::vector<WeekRow> rows) { replace(std::move(rows)); }
    [[nodiscard]] const std::vector<WeekRow>& rows() const { return stored<WeekRow>(); }
};

/// Hours on one day beside the usual ones.
struct ExtraRow
{
    QString extraId;
    QString dayWords;   ///< "12 May 2031"
    QString hoursWords; ///< "17:00 to 19:00"

    [[nodiscard]] QString key() const { return extraId; }
    friend bool operator==(const ExtraRow&, const ExtraRow&) = default;
};

class ExtraModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")

public:
    explicit ExtraModel(QObject* parent = nullptr);
    void setRows(std::vector<ExtraRow> rows) { replace(std::move(rows)); }
    [[nodiscard]] const std::vector<ExtraRow>& rows() const { return stored<ExtraRow>(); }
};

} // namespace ramplight
