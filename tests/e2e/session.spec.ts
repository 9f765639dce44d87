import { expect, test } from './fixture.ts'

test('SESSION-1: the token leaves the address at once, and a reload keeps the session', async ({
  page,
  host,
}) => {
  await expect(page.getByRole('heading').first()).toBeVisible()
  expect(page.url()).not.toContain('token')
  const info = page.waitForResponse((response) => response.url().includes('/rpc/host/info'))
  await page.reload()
  expect((await info).status()).toBe(200)
  expect(page.url().startsWith(host.origin)).toBe(true)
})

test.describe('with a project', () => {
  test.use({ record: 'demo' })

  test('SESSION-4: what the first page needs is asked for once, though two parts of the program want it', async ({
    page,
  }) => {
    await expect(page.getByRole('heading').first()).toBeVisible()
    const asked: string[] = []
    page.on('request', (request) => asked.push(new URL(request.url()).pathname))
    await page.reload()
    await expect(page.locator('main h1')).toBeVisible()
    const calls = ['/rpc/host/info', '/rpc/projects/list', '/rpc/projects/outline', '/rpc/projects/today']
    for (const call of calls) expect(asked.filter((path) => path === call)).toHaveLength(1)
  })
})

test.describe('with a file of the program that does not come', () => {
  test.use({
    record: 'demo',
    expectedTrouble: [/ERR_FAILED|dynamically imported module|Unable to preload/],
  })

  test('SESSION-5: the page says so, the others still open, and the program loads again on the spot', async ({
    page,
  }) => {
    await expect(page.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible()
    const file = /assets\/floors-screen/
    await page.route(file, (route) => route.abort())
    await page.getByRole('link', { name: 'Floors', exact: true }).click()
    await expect(page.getByRole('alert')).toContainText('This page could not be shown')
    await page.getByRole('link', { name: 'Today', exact: true }).click()
    await expect(page.getByRole('heading', { name: 'Today', level: 1 })).toBeVisible()
    await page.getByRole('link', { name: 'Floors', exact: true }).click()
    await page.unroute(file)
    await page.getByRole('button', { name: 'Load the program again' }).click()
    await expect(page.getByRole('heading', { name: 'Floors', level: 1 })).toBeVisible()
    await expect(page.getByRole('alert')).toBeHidden()
  })
})

test.describe('without a session', () => {
  test.use({ expectedTrouble: [/401/] })

  test('SESSION-2: a page opened without the token says what to do, and the full address in the same tab opens it', async ({
    page,
    host,
    url,
    context,
  }) => {
    await page.close()
    const stranger = await context.newPage()
    await stranger.goto(`${host.origin}/`)
    await expect(stranger.getByText(/Open the full address that the start command printed/)).toBeVisible()
    await stranger.goto(url)
    await expect(stranger.getByText(/Open the full address/)).toBeHidden()
    expect(stranger.url()).not.toContain('token')
  })
})

test.describe('with a style of a stranger', () => {
  const refusal = /Applying inline style violates the following Content Security Policy/
  test.use({ expectedTrouble: [refusal] })

  test('SESSION-3: a style without the nonce is not applied, and the fixture of these tests notices it', async ({
    page,
    trouble,
  }) => {
    await expect(page.getByRole('heading').first()).toBeVisible()
    const applied = await page.evaluate(() => {
      const style = document.createElement('style')
      style.textContent = 'body { outline: 7px solid red }'
      document.head.append(style)
      return getComputedStyle(document.body).outlineWidth
    })
    expect(applied).not.toBe('7px')
    expect(trouble).toEqual([expect.stringMatching(refusal)])
  })
})
