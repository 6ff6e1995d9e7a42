// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/photosfirstledger.h"
#include "storage/standby.h"
#include "storage/tryingagain.h"

#include <QObject>
#include <QStringList>
#include <QThreadPool>
#include <QTimer>

#include <atomic>
#include <memory>

namespace ramplight {

/// What the store's thread works with: the house's database, or, while a server that is shared with
/// other kiosks is away, the working copy. It notices within seconds that the server is away (each
/// call has a limit, and it asks by itself once a second), goes on trying, and changes over by
/// itself. Lives on the store's thread, which runs an event loop.
class OpenStore : public QObject
{
    Q_OBJECT

public:
    /// Clock and catalogue outlive it.
    OpenStore(const StoreSettings& settings, const HeadKeeper& keeper, const Clock& clock,
              const Catalogue& catalogue);
    ~OpenStore() override;

    /// Once. Errors: those of Store::open(); a server that is away is none where a copy is known.
    [[nodiscard]] tl::expected<MigrationOutcome, StoreError> open();

    /// The house's own file is closed, and nobody works with it: error() has these words until it
    /// gets up again. Where it was not, getUp() does nothing.
    void rest(const QString& words);
    void getUp();

    /// Null: there is nothing to work with, and error() says why. askedBefore: the same piece of
    /// work had begun when the server went away, and may have come through.
    [[nodiscard]] Workshop* workshop(bool askedBefore = false);
    [[nodiscard]] Store& store();
    [[nodiscard]] const StoreError& error() const { return m_error; }
    /// After each piece of work: true when the server went away in the middle of it, so that it has
    /// to be done once more with what there is now.
    [[nodiscard]] bool lostMeanwhile();
    /// After each piece of work: tells, once, that the house's own file is damaged. found: what the
    /// work itself was told; null: nothing.
    void tellDamage(const StoreError* found);

    /// Somebody takes note of a request that was refused.
    [[nodiscard]] tl::expected<void, StoreError> note(qint64 kept, PersonId by);
    /// What was taken note of, the latest first.
    [[nodiscard]] tl::expected<std::vector<KeptRequest>, StoreError> noted();

signals:
    /// As ChangeFeed has them; after a change of places everything is read anew.
    void changed(const QStringList& cars);
    void siteChanged();
    /// The house's own file is not what was written; in words. Once.
    void damaged(const QString& words);
    /// The thread that looked at the whole file found that.
    void foundDamage(QPrivateSignal);
    /// The thread that looked: the server answers, and photos are on their way.
    void sending(QPrivateSignal);
    /// The thread that looked says whether the server answers, and has what it should; in words,
    /// why what answers is not taken for the server, or what it says no for; and whether it answers
    /// and takes nobody.
    void looked(bool answers, const QString& objection, bool crowded, QPrivateSignal);
    /// Whether the server is away, what is kept.
    void standingChanged(const ramplight::ServerStanding& standing);

private:
    [[nodiscard]] tl::expected<std::unique_ptr<Store>, StoreError> openedStore() const;
    [[nodiscard]] tl::expected<void, StoreError> listen(Store& store);
    [[nodiscard]] tl::expected<void, StoreError> use(std::unique_ptr<Store> server);
    [[nodiscard]] std::unique_ptr<Ledger> doorOf(Store& server);
    using Done = tl::expected<void, StoreError>;

    /// Whether what is kept and known here can be used.
    [[nodiscard]] bool openStandby(Store& server);
    /// Error: the server takes nothing, and there is a copy to go on with meanwhile.
    [[nodiscard]] Done handBack(Store& server);
    void sendOwed();
    void goAway(const StoreError& why);
    /// Error: nothing is known here yet, or the disk fails.
    [[nodiscard]] Done workWithCopy();
    void tryCopyAgain();
    /// A file that could not be opened for now.
    [[nodiscard]] bool mayOpenLater() const;
    void openLater();
    void lookOverFileSoon();
    void lookOverFile();
    void beat();
    void follow();
    void followFromNowOn();
    void goOnFollowing();
    void look();
    /// Whether a server that was asked answers and takes nobody.
    void leaveInPeace(bool crowded);
    void bringPhotos();
    void comeBack();
    void markKnown();
    void tell();
    /// Another store answers: all of it is to be read anew.
    void tellEverything();

    const StoreSettings m_settings;
    const HeadKeeper m_keeper;
    const Clock& m_clock;
    const Catalogue& m_catalogue;
    const std::shared_ptr<StartedTimers> m_timers = std::make_shared<StartedTimers>();
    std::unique_ptr<Store> m_server; ///< or the house's own file; null: away
    std::unique_ptr<Ledger> m_door;  ///< of the server's ledger
    std::unique_ptr<Workshop> m_workshop;
    std::unique_ptr<Standby> m_standby; ///< null: there is no server, or nothing is kept
    StoreError m_error;
    QString m_staffSeal;                   ///< of the server, as it was taken over last
    std::unique_ptr<PhotoOutbox> m_photos; ///< null: photos lie elsewhere
    bool m_away = false;
    bool m_sending = false;
    bool m_moved = false; ///< away: the site is not in that database any more
    bool m_owes = false;  ///< the server answers and did not take all that is kept here
    Moment m_awaySince;
    QString m_hindrance;
    QTimer m_beat;
    QTimer m_follow;
    QThreadPool m_looking;
    bool m_looks = false;
    TryingAgain m_tries;
    bool m_isDamageTold = false;
    bool m_rests = false;
    int m_beats = 0;
    std::atomic<bool> m_ends = false; ///< what is being brought to the server is left where it is
};

} // namespace ramplight
