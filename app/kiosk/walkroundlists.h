// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/listbase.h"

#include <QtQmlIntegration>

// The lists of the walk-round. Roles are the names of the rows' members. GUI thread.
namespace ramplight {

struct WalkViewRow
{
    QString viewId; ///< WalkView
    QString title;
    int places = 0;
    int unseen = 0; ///< nobody has looked at them yet
    bool chosen = false;

    [[nodiscard]] QString key() const { return viewId; }
    friend bool operator==(const WalkViewRow&, const WalkViewRow&) = default;
};

struct WalkPlaceRow
{
    QString placeId;
    QString title;  ///< without its side
    int mark = 0;   ///< Wall.Mark
    int side = 0;   ///< -1, 1: a field beside the drawing; 0: named on the drawing
    int order = 0;  ///< of the field, from the front
    int fields = 0; ///< on its side
    bool chosen = false;

    [[nodiscard]] QString key() const { return placeId; }
    friend bool operator==(const WalkPlaceRow&, const WalkPlaceRow&) = default;
};

/// A finding that stands.
struct WalkFindingRow
{
    int findingId = 0;
    QString placeId;
    QString words;
    QString byWords;

    [[nodiscard]] int key() const { return findingId; }
    friend bool operator==(const WalkFindingRow&, const WalkFindingRow&) = default;
};

/// What comes out of the walk-round so far.
struct WalkWorkRow
{
    int operationId = 0;
    QString title;
    QString placeId;
    QString whyWords; ///< which findings it answers
    QString minutesWords;
    bool safety = false;
    bool fresh = false; ///< of the last command

    [[nodiscard]] int key() const { return operationId; }
    friend bool operator==(const WalkWorkRow&, const WalkWorkRow&) = default;
};

struct WalkSkillRow
{
    QString skill;
    QString title;
    QString minutesWords;

    [[nodiscard]] QString key() const { return skill; }
    friend bool operator==(const WalkSkillRow&, const WalkSkillRow&) = default;
};

class WalkViews : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")

public:
    explicit WalkViews(QObject* parent = nullptr);
    void setRows(std::vector<WalkViewRow> rows);
};

class WalkPlaces : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")

public:
    explicit WalkPlaces(QObject* parent = nullptr);
    void setRows(std::vector<WalkPlaceRow> rows);
};

class WalkFindings : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")

public:
    explicit WalkFindings(QObject* parent = nullptr);
    void setRows(std::vector<WalkFindingRow> rows);
};

class WalkWork : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")

public:
    explicit WalkWork(QObject* parent = nullptr);
    void setRows(std::vector<WalkWorkRow> rows);
};

class WalkSkills : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")

public:
    explicit WalkSkills(QObject* parent = nullptr);
    void setRows(std::vector<WalkSkillRow> rows);
};

} // namespace ramplight
