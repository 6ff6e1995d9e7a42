// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/choices.h"
#include "kiosk/recordview.h"
#include "kiosk/sitebook.h"

namespace ramplight {

/// A page that goes with a car (its door sheet, the tag of a wheel): made, shown, printed, saved.
/// Answers through `ask` (what: "make", "print", "save"). GUI thread.
class PaperView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(bool made READ made NOTIFY changed FINAL)
    Q_PROPERTY(QString title READ title NOTIFY changed FINAL)
    Q_PROPERTY(QString pageUrl READ pageUrl NOTIFY changed FINAL) ///< for an Image
    /// The page's width by its height.
    Q_PROPERTY(double aspect READ aspect NOTIFY changed FINAL)
    Q_PROPERTY(QString printer READ printer NOTIFY changed FINAL) ///< empty: none is set
    Q_PROPERTY(QString stick READ stick NOTIFY changed FINAL)     ///< empty: none is in
    /// What became of it: where it was saved, who prints it, what keeps it; empty.
    Q_PROPERTY(QString outcome READ outcome NOTIFY changed FINAL)
    /// The wheels that a tag can be for, by corner ("FL"); choosing one makes its tag.
    Q_PROPERTY(ramplight::Choices* corners READ corners CONSTANT FINAL)

public:
    PaperView(Desk& desk, SiteBook& book, std::shared_ptr<RecordPagesShelf> shelf,
              QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] bool made() const { return !m_paper.pdf.isEmpty(); }
    [[nodiscard]] QString title() const { return m_paper.title; }
    [[nodiscard]] QString pageUrl() const;
    [[nodiscard]] double aspect() const;
    [[nodiscard]] QString printer() const { return m_desk.printer(); }
    [[nodiscard]] QString stick() const { return m_stick; }
    [[nodiscard]] QString outcome() const { return m_outcome; }
    [[nodiscard]] Choices* corners() { return &m_corners; }

    Q_INVOKABLE void makeDoorSheet(const QString& carId);
    /// Nothing is made until a corner is chosen.
    Q_INVOKABLE void askForTag(const QString& carId);
    Q_INVOKABLE void print();
    Q_INVOKABLE void save();
    Q_INVOKABLE void saveToStick();
    Q_INVOKABLE void close();

signals:
    void changed();

private:
    using Made = tl::expected<PaperMade, QString>;

    using Source = std::function<QFuture<Made>()>;

    void forget();
    void want(const Source& page);
    /// Makes what is wanted, once nothing else is under way.
    void makeWanted();
    void keep(KeepAt where);
    /// Printing or saving is over; fault: why it failed.
    void end(const QString& id, const QString& fault);

    Desk& m_desk;
    SiteBook& m_book;
    std::shared_ptr<RecordPagesShelf> m_shelf;
    Ask m_ask;
    QString m_tagFor; ///< the car whose wheels are offered
    Choices m_corners;
    Source m_wanted; ///< empty: nothing is
    PaperMade m_paper;
    QString m_stick;
    QString m_outcome;
    int m_edition = 0;
};

} // namespace ramplight
