// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/carview.h"
#include "kiosk/choices.h"
#include "kiosk/desk.h"
#include "kiosk/photopairs.h"

#include <QList>
#include <QObject>
#include <QtQmlIntegration>

#include <optional>

namespace ramplight {

/// Two photos of the same work of the car that is open, one taken before it and one after: beside
/// each other, and laid on each other when they were taken closely enough from the same place,
/// which the desk finds out on its pool. Of several, the first before and the last after until
/// somebody chooses. GUI thread.
class BeforeAfter : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    /// Ids of the car's operations that have a photo of each.
    Q_PROPERTY(QList<int> operations READ operations NOTIFY changed FINAL)
    /// The same to choose from; ids as text.
    Q_PROPERTY(ramplight::Choices* works READ works CONSTANT FINAL)
    // ---- the work that is looked at
    Q_PROPERTY(QString title READ title NOTIFY changed FINAL) ///< empty: none is open
    Q_PROPERTY(ramplight::PhotosModel* befores READ befores CONSTANT FINAL)
    Q_PROPERTY(ramplight::PhotosModel* afters READ afters CONSTANT FINAL)
    // ---- the two photos
    Q_PROPERTY(QString beforeKey READ beforeKey NOTIFY changed FINAL)
    Q_PROPERTY(QString afterKey READ afterKey NOTIFY changed FINAL)
    Q_PROPERTY(QString beforeUrl READ beforeUrl NOTIFY changed FINAL) ///< the whole pictures
    Q_PROPERTY(QString afterUrl READ afterUrl NOTIFY changed FINAL)
    Q_PROPERTY(QString beforeWords READ beforeWords NOTIFY changed FINAL) ///< "Ines, Mon 09:10"
    Q_PROPERTY(QString afterWords READ afterWords NOTIFY changed FINAL)
    // ---- laid on each other
    Q_PROPERTY(Fit fit READ fit NOTIFY changed FINAL)
    /// What there is to say about it, whatever it is.
    Q_PROPERTY(QString fitWords READ fitWords NOTIFY changed FINAL)
    /// What both show, so that the same thing is at the same point; empty unless they fit.
    Q_PROPERTY(QString beforeLaidUrl READ beforeLaidUrl NOTIFY changed FINAL)
    Q_PROPERTY(QString afterLaidUrl READ afterLaidUrl NOTIFY changed FINAL)
    Q_PROPERTY(qreal proportion READ proportion NOTIFY changed FINAL) ///< their width by height

public:
    enum Fit {
        Nothing, ///< no work is open
        Looking,
        Close, ///< they can be laid on each other
        Apart, ///< taken from somewhere else
        Fault, ///< one of them cannot be read
    };
    Q_ENUM(Fit)

    BeforeAfter(Desk& desk, CarView& car, SiteBook& book, Ticker& ticker,
                QObject* parent = nullptr);

    [[nodiscard]] QList<int> operations() const;
    [[nodiscard]] Choices* works() { return &m_works; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] PhotosModel* befores() { return &m_befores; }
    [[nodiscard]] PhotosModel* afters() { return &m_afters; }
    [[nodiscard]] QString beforeKey() const { return m_before.photoKey; }
    [[nodiscard]] QString afterKey() const { return m_after.photoKey; }
    [[nodiscard]] QString beforeUrl() const { return m_before.fullUrl; }
    [[nodiscard]] QString afterUrl() const { return m_after.fullUrl; }
    [[nodiscard]] QString beforeWords() const { return m_before.byWords; }
    [[nodiscard]] QString afterWords() const { return m_after.byWords; }
    [[nodiscard]] Fit fit() const { return m_fit; }
    [[nodiscard]] QString fitWords() const;
    [[nodiscard]] QString beforeLaidUrl() const;
    [[nodiscard]] QString afterLaidUrl() const;
    [[nodiscard]] qreal proportion() const;

    /// Whether some work has this photo (a photoKey of the car's list) and one to compare with it.
    Q_INVOKABLE [[nodiscard]] bool compares(const QString& photoKey) const;
    /// Whether this operation is among `operations`.
    Q_INVOKABLE [[nodiscard]] bool comparesWork(int operationId) const;
    Q_INVOKABLE void openWork(int operationId);
    /// The first work there is.
    Q_INVOKABLE void open();
    /// The work of this photo, with it chosen.
    Q_INVOKABLE void openPhoto(const QString& photoKey);
    /// One of befores or afters; the other stays.
    Q_INVOKABLE void choose(const QString& photoKey);
    Q_INVOKABLE void close();

signals:
    void changed();

private:
    [[nodiscard]] const PhotographedWork* work() const;
    void rebuild();
    void show(const QString& wantedBefore, const QString& wantedAfter);
    void align();
    [[nodiscard]] QRectF part() const;

    Desk& m_desk;
    CarView& m_car;
    SiteBook& m_book;
    Ticker& m_ticker;
    std::vector<PhotographedWork> m_all;
    CarId m_of; ///< whose work that is
    OperationId m_open;
    Choices m_works;
    PhotosModel m_befores;
    PhotosModel m_afters;
    PhotoRow m_before;
    PhotoRow m_after;
    Fit m_fit = Nothing;
    QString m_fault;
    PhotoPair m_pair; ///< when they are close
    int m_turn = 0;   ///< answers about an older pair are dropped
};

} // namespace ramplight
