// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/car.h"
#include "kiosk/choices.h"
#include "kiosk/sitebook.h"

#include <QObject>
#include <QtQmlIntegration>

#include <optional>

namespace ramplight {

/// Every place of the vocabulary in words, grouped for a list.
[[nodiscard]] std::vector<ChoiceRow> placeChoices(const SiteBook& book);

/// A finding while it is put together: place, what it is, how much, what to do. Used on arrival,
/// for "found something else", and to correct one. GUI thread.
class FindingDraft : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from a view")
    Q_PROPERTY(ramplight::Choices* places READ places CONSTANT FINAL) ///< grouped by kind
    Q_PROPERTY(ramplight::Choices* conditions READ conditions CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* severities READ severities CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* remedies READ remedies CONSTANT FINAL) ///< several
    /// Typed digits; empty when it was not counted or measured.
    Q_PROPERTY(QString countText READ countText WRITE setCountText NOTIFY changed FINAL)
    Q_PROPERTY(QString sizeText READ sizeText WRITE setSizeText NOTIFY changed FINAL) ///< mm
    Q_PROPERTY(
        QString treadText READ treadText WRITE setTreadText NOTIFY changed FINAL) ///< mm, "1.9"
    /// The place is a tyre: ask for the tread.
    Q_PROPERTY(bool asksTread READ asksTread NOTIFY changed FINAL)
    Q_PROPERTY(QString note READ note WRITE setNote NOTIFY changed FINAL)
    /// Place and condition are there.
    Q_PROPERTY(bool complete READ isComplete NOTIFY changed FINAL)
    /// "near side front wheel, kerbed, moderate": what will be recorded.
    Q_PROPERTY(QString words READ words NOTIFY changed FINAL)
    /// What is wrong with a typed number; empty when all is well.
    Q_PROPERTY(QString fault READ fault NOTIFY changed FINAL)

public:
    explicit FindingDraft(SiteBook& book, QObject* parent = nullptr);

    [[nodiscard]] Choices* places() { return &m_places; }
    [[nodiscard]] Choices* conditions() { return &m_conditions; }
    [[nodiscard]] Choices* severities() { return &m_severities; }
    [[nodiscard]] Choices* remedies() { return &m_remedies; }
    [[nodiscard]] QString countText() const { return m_count; }
    void setCountText(const QString& text);
    [[nodiscard]] QString sizeText() const { return m_size; }
    void setSizeText(const QString& text);
    [[nodiscard]] QString treadText() const { return m_tread; }
    void setTreadText(const QString& text);
    [[nodiscard]] bool asksTread() const;
    [[nodiscard]] QString note() const { return m_note; }
    void setNote(const QString& note);
    [[nodiscard]] bool isComplete() const;
    [[nodiscard]] QString words() const;
    [[nodiscard]] QString fault() const;

    Q_INVOKABLE void clear();
    /// A place was touched on the drawing.
    Q_INVOKABLE void choosePlace(const QString& placeId);

    /// Nothing when it is not complete or a number is wrong.
    [[nodiscard]] std::optional<FindingData> data() const;
    void start(const FindingData& data);

signals:
    void changed();

private:
    void offerWords();
    void set(QString& member, const QString& text);
    [[nodiscard]] FindingData asFarAsKnown() const;

    SiteBook& m_book;
    Choices m_places;
    Choices m_conditions;
    Choices m_severities;
    Choices m_remedies;
    QString m_count;
    QString m_size;
    QString m_tread;
    QString m_note;
    FindingData m_base; // what a correction keeps: quote, moment in the recording
};

} // namespace ramplight
