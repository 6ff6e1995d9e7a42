// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/filesview.h"

#include "kiosk/carwords.h"

namespace ramplight {

std::vector<FileRow> fileRows(const std::vector<DroppedFile>& files, const SiteBook& book,
                              Moment now)
{
    std::vector<FileRow> rows;
    for (const DroppedFile& file : files)
        rows.push_back(
            {file.path, file.name, dotted({book.times().shortly(file.modified, now), file.stick})});
    return rows;
}

FilesView::FilesView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
{
}

void FilesView::say(const QString& words, const QStringList& faults)
{
    m_said = words;
    m_faults = faults;
    emit changed();
}

void FilesView::refresh()
{
    whenReady(m_desk.houseFiles(), this,
              [this](const tl::expected<std::vector<DroppedFile>, EvidenceError>& listed) {
                  m_files.setRows(listed ? fileRows(*listed, m_book, m_ticker.now())
                                         : std::vector<FileRow>());
              });
}

void FilesView::exportAll()
{
    if (!m_ask.begin(QStringLiteral("export"), [this] { exportAll(); }))
        return;
    whenReady(m_desk.exportHouse(), this, [this](const tl::expected<QString, QString>& written) {
        if (!written) {
            m_ask.fail(QStringLiteral("export"), written.error(), true);
            return;
        }
        m_ask.succeed();
        say(tr("house.json and catalogue.json are in %1.").arg(*written), {});
        refresh();
    });
}

void FilesView::take(const QString& path)
{
    const QString name = path.section(QLatin1Char('/'), -1);
    const CommandId request = newCommandId();
    m_session.whenPinAgain(
        tr("to take %1 in").arg(name),
        [=, this](PersonId manager) { send(request, manager, path); }, request);
}

void FilesView::send(const CommandId& request, PersonId manager, const QString& path)
{
    if (!m_ask.begin(QStringLiteral("take"), [=, this] { send(request, manager, path); }))
        return;
    whenReady(m_desk.importHouse(request, manager, path), this,
              [this, path](const tl::expected<void, QStringList>& taken) {
                  const QString name = path.section(QLatin1Char('/'), -1);
                  m_ask.succeed();
                  if (taken) {
                      m_book.refresh();
                      say(tr("%1 was taken in.").arg(name), {});
                  } else {
                      say(tr("%1: nothing was taken in.").arg(name), taken.error());
                  }
              });
}

} // namespace ramplight
