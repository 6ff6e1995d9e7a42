// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/listbase.h"

#include <QtQmlIntegration>

// The lists of a review. Roles are the names of the rows' members. GUI thread.
namespace ramplight {

/// One thing after the other: doubtful findings, sure ones, tyres, sound places, the rest.
struct ReviewStageRow
{
    int stage = 0; ///< SpeechReview.Stage
    QString title;
    int open = 0;
    bool chosen = false;

    [[nodiscard]] int key() const { return stage; }
    friend bool operator==(const ReviewStageRow&, const ReviewStageRow&) = default;
};

struct ReviewDraftRow
{
    int draft = 0;
    QString placeWords;
    QString whatWords; ///< "kerbed, moderate"
    QString todoWords; ///< "refurbish"; empty
    QString momentWords;

    [[nodiscard]] int key() const { return draft; }
    friend bool operator==(const ReviewDraftRow&, const ReviewDraftRow&) = default;
};

struct ReviewDepthRow
{
    QString placeId;
    QString title;
    QString saidWords;  ///< "4.5 mm", "3.0 to 4.0 mm"
    bool whole = false; ///< one figure: it can be kept as it was said
    bool waits = false; ///< a finding about this tyre has to be decided first

    [[nodiscard]] QString key() const { return placeId; }
    friend bool operator==(const ReviewDepthRow&, const ReviewDepthRow&) = default;
};

struct ReviewPlaceRow
{
    QString placeId;
    QString title;
    bool safety = false; ///< holds the car until somebody has looked

    [[nodiscard]] QString key() const { return placeId; }
    friend bool operator==(const ReviewPlaceRow&, const ReviewPlaceRow&) = default;
};

class ReviewStages : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the review")

public:
    explicit ReviewStages(QObject* parent = nullptr);
    void setRows(std::vector<ReviewStageRow> rows);
};

class ReviewDrafts : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the review")

public:
    explicit ReviewDrafts(QObject* parent = nullptr);
    void setRows(std::vector<ReviewDraftRow> rows);
};

class ReviewDepths : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the review")

public:
    explicit ReviewDepths(QObject* parent = nullptr);
    void setRows(std::vector<ReviewDepthRow> rows);
};

class ReviewPlaces : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the review")

public:
    explicit ReviewPlaces(QObject* parent = nullptr);
    void setRows(std::vector<ReviewPlaceRow> rows);
};

} // namespace ramplight
