// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/recoveryview.h"

#include "kiosk/answer.h"

namespace ramplight {

RecoveryView::RecoveryView(BackupPort* port, Desk& desk, SiteBook& book, QObject* parent)
    : QObject(parent)
    , m_port(port)
    , m_book(book)
{
    connect(&m_book, &SiteBook::damaged, this, [this](const QString& words) {
        if (m_words != words)
            begin(words);
    });
    connect(&desk, &Desk::storeDamaged, this, [this](const QString& words) {
        m_isFound = true;
        begin(words);
    });
    connect(&m_book, &SiteBook::changed, this, [this] {
        // People and rules may be whole where a car is not.
        if (m_words.isEmpty() || m_isFound)
            return;
        m_words.clear();
        emit changed();
    });
}

void RecoveryView::begin(const QString& words)
{
    m_words = words;
    look();
    emit changed();
}

void RecoveryView::wait()
{
    if (!m_isFound || m_mending)
        return;
    m_waits = true;
    emit changed();
}

void RecoveryView::takeUp()
{
    m_waits = false;
    if (!m_remakable)
        look();
    emit changed();
}

QString RecoveryView::offer() const
{
    // The house's own zone stands in the database that cannot be read.
    return m_offer ? TimeWords(QTimeZone::systemTimeZone()).full(m_offer->madeAt) : QString();
}

QString RecoveryView::offerDetail() const
{
    if (!m_offer)
        return {};
    const QString cars = m_offer->cars == 1 ? tr("1 car") : tr("%1 cars").arg(m_offer->cars);
    return tr("%1, in %2").arg(cars, m_offer->path);
}

QString RecoveryView::offerFaults() const
{
    if (!m_offer)
        return {};
    QStringList sentences;
    if (!m_offer->faults.isEmpty()) {
        // More than that nobody reads on a wall; the command tells all of it.
        constexpr qsizetype shown = 3;
        QStringList told = m_offer->faults.mid(0, shown);
        if (m_offer->faults.size() > shown)
            told.append(tr("and %1 more").arg(m_offer->faults.size() - shown));
        sentences.append(tr("This was wrong already when it was made, and comes back as it was: %1")
                             .arg(told.join(QStringLiteral("; "))));
    }
    if (m_offer->photosLacking > 0)
        sentences.append(tr("Photos that will be missing, because neither the backup nor the "
                            "workshop's folder has them whole: %1")
                             .arg(m_offer->photosLacking));
    if (m_offer->walkRoundsLacking > 0)
        sentences.append(tr("Walk-rounds whose words will be missing, because neither the backup "
                            "nor the workshop's folder has them whole: %1")
                             .arg(m_offer->walkRoundsLacking));
    return sentences.join(QLatin1Char('\n'));
}

void RecoveryView::look()
{
    if (m_port == nullptr || m_looking || elsewhere())
        return;
    m_looking = true;
    emit changed();
    whenReady(m_port->canRemake(), this, [this](bool can) {
        m_remakable = can;
        if (!can)
            return lookForBackup();
        m_looking = false;
        emit changed();
    });
}

void RecoveryView::lookForBackup()
{
    m_looking = true;
    emit changed();
    whenReady(m_port->lastWhole(), this, [this](const std::optional<BackupOffer>& found) {
        m_looking = false;
        m_offer = found;
        emit changed();
    });
}

void RecoveryView::remake()
{
    if (m_remakable && !m_mending)
        mend([this] { return m_port->remake(); });
}

void RecoveryView::bringBack()
{
    if (m_offer && !m_mending)
        mend([this] { return m_port->bringBack(*m_offer); });
}

void RecoveryView::mend(const std::function<QFuture<tl::expected<void, QString>>()>& begin)
{
    m_mending = true;
    m_fault.clear();
    emit changed();
    emit mendingBegins();
    whenReady(begin(), this, [this](const tl::expected<void, QString>& done) {
        m_mending = false;
        if (done) {
            emit changed();
            emit openAgainWanted();
            return;
        }
        m_fault = done.error();
        emit mendingFailed();
        // What is second best is offered once the best failed.
        if (m_remakable && !m_offer && !m_looking)
            return lookForBackup();
        emit changed();
    });
}

} // namespace ramplight
