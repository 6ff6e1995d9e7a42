// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/workshop.h"
#include "storage/mirror.h"
#include "storage/outboxledger.h"

#include <memory>

namespace ramplight {

/// How a kiosk goes on while its server is away. While the server answers, the mirror follows it.
/// When it does not, a working copy is made of the mirror, with what the outbox keeps played into
/// it, and a workshop's door in front of it that puts everything new into the outbox. When the
/// server is back, the outbox is sent and the working copy thrown away. Only the outbox is ever
/// worth anything by itself: damaged, it is set aside, and told until somebody has read it; what
/// else is damaged is made anew. On the store's thread.
class Standby
{
public:
    /// Clock and catalogue outlive it. timers: see Workshop.
    Standby(QString folder, HeadKeeper keeper, const Clock& clock, const Catalogue& catalogue,
            std::shared_ptr<StartedTimers> timers = std::make_shared<StartedTimers>());
    ~Standby();

    /// The files of this site, while its server is away; empty: of the one that is known here.
    /// Errors: Unavailable, Damaged, TooNew, WrongKeys; what is kept can be read all the same where
    /// only the mirror is at fault.
    [[nodiscard]] tl::expected<void, StoreError> open(const SiteId& site);
    /// The same while the server answers: a mirror that is damaged, or sealed with other keys, is
    /// begun anew.
    [[nodiscard]] tl::expected<void, StoreError> open(Store& server);
    [[nodiscard]] bool isOpen() const { return m_mirror && m_outbox; }
    /// In words: why its files cannot be used; empty: they can, or there are none yet.
    [[nodiscard]] const QString& fault() const { return m_fault; }
    /// The site that this kiosk worked for, open or not; empty: none, or nobody knows which.
    [[nodiscard]] SiteId siteHere() const;
    /// Only when it is open.
    [[nodiscard]] const SiteId& siteId() const { return m_mirror->siteId(); }

    // ---- while the server answers
    /// These cars have changed; an empty list means all.
    void want(const QStringList& cars);
    /// People, rights, rules.
    void wantSite();
    [[nodiscard]] bool hasToFollow() const
    {
        return isOpen() && (!m_wanted.isEmpty() || m_allWanted || m_siteWanted);
    }
    /// What the server lost is in the mirror and nowhere else, and could not be told yet: want()
    /// all from time to time.
    [[nodiscard]] bool isUntold() const { return m_untold; }
    [[nodiscard]] bool isInStep() const { return isOpen() && !hasToFollow() && !m_fellBehind; }
    /// Takes a few of what is wanted over. A mirror that is not what the server has is begun anew.
    /// True: that is to be told.
    [[nodiscard]] bool follow(Store& server);
    /// The server answered just now and everything is taken over.
    void markKnown(Moment now);
    /// null: never whole.
    [[nodiscard]] Moment knownAt() const { return m_knownAt; }

    // ---- while it is away
    /// Error: nothing is known here yet.
    [[nodiscard]] tl::expected<void, StoreError> takeOver();
    [[nodiscard]] bool isWorking() const { return m_workshop != nullptr; }
    [[nodiscard]] Store& store() { return *m_working; }
    /// Nobody is to work with the copy any more; what is kept stays.
    void rest();
    /// inDoubt: see OutboxLedger.
    [[nodiscard]] Workshop& workshop(bool inDoubt)
    {
        m_ledger->setInDoubt(inDoubt);
        return *m_workshop;
    }

    // ---- when it is back
    /// Sends what is kept through the door of the server's ledger, in order, and throws the working
    /// copy away. What is about cars that are damaged there waits on, and what somebody began who
    /// is at other work now, see owedWhy(). Error: the server went away again, or takes nothing;
    /// what it took is known to it, the rest is kept.
    [[nodiscard]] tl::expected<void, StoreError> handBack(Store& server, Ledger& door);

    /// After handBack(): why some of it still waits, in words; empty: none does.
    [[nodiscard]] const QString& owedWhy() const { return m_owedWhy; }

    // ---- what is kept
    /// What a kiosk that works with its file again, or is not running, keeps of this site in its
    /// folder. Makes nothing there.
    [[nodiscard]] static tl::expected<std::vector<KeptRequest>, StoreError>
    keptIn(const QString& folder, const SiteId& site);
    [[nodiscard]] tl::expected<std::vector<KeptRequest>, StoreError> kept();
    /// What somebody took note of, the latest first.
    [[nodiscard]] tl::expected<std::vector<KeptRequest>, StoreError> seen();
    /// Somebody takes note of what was refused.
    [[nodiscard]] tl::expected<void, StoreError> note(qint64 number, PersonId by);

private:
    using Mirrored = tl::expected<std::unique_ptr<Mirror>, StoreError>;

    [[nodiscard]] QString path(const char* name) const;
    [[nodiscard]] tl::expected<void, StoreError> openFor(const SiteId& site, bool serverAnswers);
    [[nodiscard]] Mirrored openMirror(const SiteId& site, bool serverAnswers);
    [[nodiscard]] tl::expected<void, StoreError> openOutbox(const SiteId& site);
    void takeKnownAtOver();
    void closeMirror();
    [[nodiscard]] tl::expected<std::vector<KeptRequest>, StoreError> keptOrRescued();

    /// Once for each opening.
    [[nodiscard]] tl::expected<void, StoreError> checkMirror();
    [[nodiscard]] tl::expected<void, StoreError> takeWanted(Store& server);
    [[nodiscard]] tl::expected<void, StoreError> renewMirror(Store& server);
    [[nodiscard]] tl::expected<void, StoreError> beginMirror();
    void fallBehind();
    [[nodiscard]] tl::expected<void, StoreError> tellMissing(const std::vector<Entry>& missing);

    [[nodiscard]] tl::expected<void, StoreError> makeWorkingCopy();
    [[nodiscard]] tl::expected<void, StoreError> prepareCopy(const QString& file);
    [[nodiscard]] tl::expected<std::unique_ptr<Store>, StoreError> openCopy(const QString& file);
    [[nodiscard]] tl::expected<void, StoreError> playKept();
    void openDoor();
    void dropWorkingCopy();

    [[nodiscard]] tl::expected<void, StoreError> send(Store& server, Ledger& door);
    void tellOwed(const QStringList& damaged, const QString& waits);
    [[nodiscard]] tl::expected<void, StoreError> takeSent(Store& server, const QStringList& cars);
    [[nodiscard]] tl::expected<void, StoreError> sendMarks(Store& server);
    [[nodiscard]] tl::expected<void, StoreError> sendMarksOf(PersonId person, Store& server);
    [[nodiscard]] bool openLeftCopy();

    /// Marks of one person in a working copy.
    struct Marks
    {
        std::vector<SignInMark> all;
        std::size_t known = 0; ///< the first of them, which came with the mirror
    };
    [[nodiscard]] static Marks marksIn(Store& copy, PersonId person);

    QString m_folder;
    HeadKeeper m_keeper;
    const Clock& m_clock;
    const Catalogue& m_catalogue;
    std::shared_ptr<StartedTimers> m_timers; ///< never null
    std::unique_ptr<Mirror> m_mirror;
    std::unique_ptr<Outbox> m_outbox;
    QStringList m_wanted; ///< cars
    bool m_allWanted = false;
    bool m_siteWanted = false;
    bool m_together = false;   ///< cars that changed places have to be taken over at once
    bool m_fellBehind = false; ///< something could not be taken over; the next change tries all
    bool m_untold = false;     ///< see isUntold()
    bool m_renewed = false;    ///< begun anew, and never in step since
    bool m_checked = false;    ///< by SQLite, since it was opened
    bool m_followed = false;   ///< and every car in it was held against the server
    QString m_fault;
    QString m_owedWhy;
    Moment m_knownAt;
    Moment m_keptKnownAt;
    std::unique_ptr<Store> m_working;
    std::unique_ptr<OutboxLedger> m_ledger;
    std::unique_ptr<Workshop> m_workshop;
};

} // namespace ramplight
