// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/desk.h"
#include "kiosk/listbase.h"
#include "kiosk/session.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

#include <map>

namespace ramplight {

/// One request that is kept here, or that was refused when it was sent; or something that befell
/// what is kept.
struct KeptRow
{
    int number = 0;
    QString carId;
    QString stockNumber;
    QString work;          ///< "Near side front wheel: refurbish, painted"
    QString here;          ///< "Dara · 10:42 · Started"
    QString photoUrl;      ///< of the picture that it is about; empty: it is about none
    bool toBeRead = false; ///< refused, damaged, or something else that somebody has to read
    bool notice = false;   ///< not the ledger said no: it befell this kiosk
    QString refusal;       ///< why, or what to do, in words
    QStringList there;     ///< what the car's ledger says since, or which cars, a line each
    QString readBy;        ///< "Read by Runa Talbeck, 14:40"; empty: nobody read it yet

    [[nodiscard]] int key() const { return number; }
    friend bool operator==(const KeptRow&, const KeptRow&) = default;
};

class KeptModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")

public:
    explicit KeptModel(QObject* parent = nullptr);
    using ListBase::replace;
};

/// How this kiosk stands to the server that it shares with others, and what it keeps while that is
/// away. GUI thread.
class ServerView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(bool away READ away NOTIFY changed FINAL)
    /// There is something to say on every screen.
    Q_PROPERTY(bool shown READ shown NOTIFY changed FINAL)
    Q_PROPERTY(QString what READ what NOTIFY changed FINAL)     ///< what happened
    Q_PROPERTY(QString detail READ detail NOTIFY changed FINAL) ///< as of when, what is kept
    /// For who signs in: as of when the staff are known; empty while the server answers.
    Q_PROPERTY(QString staffWords READ staffWords NOTIFY changed FINAL)
    Q_PROPERTY(int waiting READ waiting NOTIFY changed FINAL)
    Q_PROPERTY(int refused READ refused NOTIFY changed FINAL)
    /// What befell this kiosk and nobody has read yet.
    Q_PROPERTY(int notices READ notices NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::KeptModel* rows READ rows CONSTANT FINAL)
    /// What was refused and read already, of who is signed in; of everybody for a manager. The last
    /// of them, the latest first; refreshRead() tells what the cars' ledgers said by then.
    Q_PROPERTY(ramplight::KeptModel* readRows READ readRows CONSTANT FINAL)
    Q_PROPERTY(int read READ read NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)

public:
    /// What is given outlives the view.
    ServerView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
               QObject* parent = nullptr);

    [[nodiscard]] bool away() const { return m_standing.shared && m_standing.away; }
    [[nodiscard]] bool shown() const { return away() || !m_standing.kept.empty() || hasFault(); }
    [[nodiscard]] QString what() const;
    [[nodiscard]] QString detail() const;
    [[nodiscard]] QString staffWords() const;
    [[nodiscard]] int waiting() const;
    [[nodiscard]] int refused() const;
    [[nodiscard]] int notices() const;
    /// Whether something of a car, or of its work, waits here. A binding asks waiting first: that
    /// tells it when to ask again.
    Q_INVOKABLE [[nodiscard]] bool keepsCar(const QString& carId) const;
    Q_INVOKABLE [[nodiscard]] bool keepsWork(const QString& carId, int operationId) const;
    [[nodiscard]] KeptModel* rows() { return &m_rows; }
    [[nodiscard]] KeptModel* readRows() { return &m_readRows; }
    [[nodiscard]] int read() const;
    Q_INVOKABLE void refreshRead();
    [[nodiscard]] Ask* ask() { return &m_ask; }

    /// Somebody who may manage has read a notice, or both stories of a refused request. Signed with
    /// the PIN.
    Q_INVOKABLE void note(int number);

signals:
    void changed();

private:
    void take();
    void takeNoted();
    void show();
    /// Of those that were read: what this person may see.
    [[nodiscard]] std::vector<const KeptRequest*> notedFor(PersonId person) const;
    void readCar(const CarId& car);
    [[nodiscard]] bool hasFault() const { return m_standing.shared && !m_standing.fault.isEmpty(); }
    [[nodiscard]] QString keptWords() const;
    /// Of the first thing that befell this kiosk.
    [[nodiscard]] QString noticeWords() const;
    [[nodiscard]] static QString titleOf(const KeptTrouble& trouble);
    [[nodiscard]] static QString entryWords(int count);
    void describe(const KeptTrouble& trouble, Moment at, KeptRow& row) const;
    void compare(const KeptRequest& request, KeptRow& row) const;
    [[nodiscard]] KeptRow rowOf(const KeptRequest& request) const;

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    ServerStanding m_standing;
    std::vector<KeptRequest> m_noted; ///< that somebody took note of
    KeptModel m_rows;
    KeptModel m_readRows;
    Ask m_ask;
    struct Story
    {
        CarState car;
        std::vector<CarEnvelope> history;
    };
    std::map<CarId, Story> m_stories; ///< of cars of which something was refused
};

} // namespace ramplight
