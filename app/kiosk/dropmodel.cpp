// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/dropmodel.h"

#include "kiosk/operationwords.h"
#include "kiosk/photourl.h"

namespace ramplight {

namespace {

constexpr std::array dropColumns{
    Column<DropRow>{"path", cell<&DropRow::path>},
    Column<DropRow>{"name", cell<&DropRow::name>},
    Column<DropRow>{"url", cell<&DropRow::url>},
    Column<DropRow>{"whenWords", cell<&DropRow::whenWords>},
    Column<DropRow>{"besideWords", cell<&DropRow::besideWords>},
    Column<DropRow>{"stick", cell<&DropRow::stick>},
    Column<DropRow>{"picked", cell<&DropRow::picked>},
};

} // namespace

DropModel::DropModel(Desk& desk, const CarView& car, SiteBook& book, Ticker& ticker,
                     QObject* parent)
    : ListBase(std::make_unique<RowTable<DropRow>>(dropColumns), parent)
    , m_desk(desk)
    , m_car(car)
    , m_book(book)
    , m_ticker(ticker)
{
}

void DropModel::open(int operationId)
{
    m_work = OperationId{operationId};
    m_picked.clear();
    show();
    refresh();
}

void DropModel::refresh()
{
    if (m_busy)
        return;
    m_busy = true;
    emit stateChanged();
    whenReady(m_desk.droppedFiles(), this,
              [this](const tl::expected<std::vector<DroppedFile>, EvidenceError>& files) {
                  m_busy = false;
                  m_fault = files ? QString() : words(files.error());
                  m_files = files ? *files : std::vector<DroppedFile>();
                  m_picked.removeIf([this](const QString& path) {
                      return std::ranges::find(m_files, path, &DroppedFile::path) == m_files.end();
                  });
                  show();
              });
}

void DropModel::pick(const QString& path, bool several)
{
    if (!m_picked.removeOne(path)) {
        if (!several)
            m_picked.clear();
        m_picked.append(path);
    }
    show();
}

void DropModel::show()
{
    const Moment now = m_ticker.now();
    const Operation* work = m_car.car().operation(m_work);
    std::vector<DropRow> rows;
    for (const DroppedFile& file : m_files)
        rows.push_back({file.path, file.name, droppedUrl(file.path),
                        m_book.times().shortly(file.modified, now),
                        work == nullptr ? QString() : besideWork(file.modified, *work, now),
                        file.stick, m_picked.contains(file.path)});
    replace(std::move(rows));
    emit stateChanged();
}

} // namespace ramplight
